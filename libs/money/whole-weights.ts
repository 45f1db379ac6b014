import { decimalFromNumber } from './decimal-from-number.js';

/**
 * Weights as whole numbers in the same proportion. A fractional weight is read as the decimal that it prints as, so
 * that 0.1 and 0.2 weigh one to two exactly, not as their binary neighbours do.
 *
 * @throws RangeError for a weight that is negative, infinite or not a number.
 */
export function wholeWeights(weights: readonly number[]): bigint[] {
  const decimals = weights.map((weight) => {
    if (!Number.isFinite(weight) || weight < 0)
      throw new RangeError(`a weight must be zero or more, got ${weight}`);
    return decimalFromNumber(weight);
  });
  const scale = decimals.reduce((most, decimal) => Math.max(most, decimal.scale), 0);
  return decimals.map((decimal) => decimal.units * 10n ** BigInt(scale - decimal.scale));
}
