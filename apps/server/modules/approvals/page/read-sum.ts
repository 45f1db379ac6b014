/** The largest sum that is kept, in cents: 20 million. */
const LARGEST = 2_000_000_000n;
const LONGEST = 40;

/** Signs and letters of a currency, before or after the figures. */
const CURRENCY = /^(?:[A-Za-z]{0,2}\p{Sc}|[A-Za-z]{3}\b)|(?:\p{Sc}|\b[A-Z]{3})$/gu;
const SHAPES = [
  /^\d{1,10}([.,]\d{0,2})?k?$/i,
  /^\d{1,3}(?:,\d{3})+(\.\d{0,2})?k?$/i,
  /^\d{1,3}(?:\.\d{3})+(,\d{0,2})?k?$/i,
];

/**
 * A sum as people type it: "800", "$1,250.50", "1 250,5", "EUR 900", "1.5k". Currency signs, their letters and spaces do
 * not count. A point or comma with one or two figures after it, at the end, begins the cents; any other one stands before
 * groups of three. Null where that is not a sum from zero up, rather than a guess.
 */
export function readSum(text: string): number | null {
  if (text.length > LONGEST) return null;
  const bare = text
    .normalize('NFKC')
    .trim()
    .replace(CURRENCY, '')
    .replace(/[\s'’_]/gu, '');
  const match = SHAPES.map((shape) => shape.exec(bare)).find((found) => found !== null);
  if (match === undefined) return null;
  const fraction = match[1] ?? '';
  const inThousands = /k$/i.test(bare);
  const whole = bare.slice(0, bare.length - fraction.length - (inThousands ? 1 : 0)).replace(/[.,]/g, '');
  const units = BigInt(whole + fraction.slice(1).padEnd(2, '0')) * (inThousands ? 1000n : 1n);
  return units > LARGEST ? null : Number(units);
}
