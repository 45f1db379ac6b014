import type { Decimal } from './decimal.js';

/** The exact sum; the empty sum is zero. */
export function addDecimals(terms: readonly Decimal[]): Decimal {
  const scale = terms.reduce((most, term) => Math.max(most, term.scale), 0);
  const units = terms.reduce((sum, term) => sum + term.units * 10n ** BigInt(scale - term.scale), 0n);
  return { units, scale };
}
