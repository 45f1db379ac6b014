/** Weights by position; the ninth, the check digit itself, counts nothing. */
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

/** Letters in the order of their values; I, O and Q have none. S starts again at 2. */
const LETTER_RUNS: readonly (readonly [letters: string, first: number])[] = [
  ['ABCDEFGH', 1],
  ['JKLMN', 1],
  ['P', 7],
  ['R', 9],
  ['STUVWXYZ', 2],
];

const VALUES = new Map<string, number>([
  ...Array.from('0123456789', (digit): [string, number] => [digit, Number(digit)]),
  ...LETTER_RUNS.flatMap(([letters, first]) =>
    Array.from(letters, (letter, index): [string, number] => [letter, first + index]),
  ),
]);

/**
 * The check digit of a VIN: "0" to "9", or "X" for ten. Null unless the text is 17 characters of digits and capitals
 * without I, O and Q. A match proves little: one wrong VIN in eleven matches too, and letters of one value (A and J, H and
 * Y) can be swapped unseen.
 *
 * Source: 49 CFR 565.15(c) (formerly 565.6(c)), tables III to VI.
 */
export function checkDigit(vin: string): string | null {
  const values = Array.from(vin, (character) => VALUES.get(character));
  if (values.length !== WEIGHTS.length) return null;
  let sum = 0;
  for (const [index, value] of values.entries()) {
    if (value === undefined) return null;
    sum += value * (WEIGHTS[index] ?? 0);
  }
  return sum % 11 === 10 ? 'X' : String(sum % 11);
}
