/**
 * A ratio of two totals that says what it is made of. The trade uses "efficiency" and "productivity" in conflicting
 * ways, so a figure is never shown by such a word alone.
 */
export interface Ratio {
  /** "numerator ÷ denominator" in words. */
  readonly label: string;
  readonly numerator: number;
  readonly denominator: number;
  /** In millionths, rounded half up: 1 250 000 is 1.25. Null when the denominator is zero: nothing was measured. */
  readonly ppm: number | null;
}

/** @throws RangeError for a negative or fractional total, which only a bug can produce. */
export function ratio(
  numeratorName: string,
  numerator: number,
  denominatorName: string,
  denominator: number,
): Ratio {
  const label = `${numeratorName} ÷ ${denominatorName}`;
  for (const total of [numerator, denominator]) {
    if (!Number.isSafeInteger(total) || total < 0) throw new RangeError(`${label}: ${total} is not a total`);
  }
  if (denominator === 0) return { label, numerator, denominator, ppm: null };
  const scaled = (BigInt(numerator) * 2_000_000n + BigInt(denominator)) / (BigInt(denominator) * 2n);
  return { label, numerator, denominator, ppm: Number(scaled) };
}
