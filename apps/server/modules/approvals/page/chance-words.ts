const MILLION = 1_000_000;
/** Shares that people can picture, as parts of a whole. */
const WHOLES = [2, 3, 4, 5, 10] as const;
/** How many times it does not happen for once that it does. */
const ONE_IN = [12, 15, 20, 30, 50, 100] as const;

interface Share {
  readonly parts: number;
  readonly of: number;
}

const SHARES: readonly Share[] = [
  ...WHOLES.flatMap((of) => Array.from({ length: of - 1 }, (_, at) => ({ parts: at + 1, of }))),
  ...ONE_IN.map((of) => ({ parts: 1, of })),
];

/**
 * A chance as people say it: "about 1 in 4". The nearest share of a few; of equally near ones that with the smaller whole.
 * What is rarer than once in 150 or surer than 19 in 20 is said in words, since such small shares are never known well.
 */
export function chanceWords(chancePpm: number): string {
  if (chancePpm * 150 < MILLION) return 'rarely, less than 1 in 150';
  if (chancePpm > 950_000) return 'almost always';
  const off = ({ parts, of }: Share): number => Math.abs(chancePpm * of - parts * MILLION) / of;
  const nearest = SHARES.reduce((best, share) => (off(share) < off(best) ? share : best));
  return `about ${nearest.parts} in ${nearest.of}`;
}
