import { cents, type Cents } from '#libs/kernel';
import { largestRemainder } from './largest-remainder.js';
import { wholeWeights } from './whole-weights.js';

/**
 * Splits `total` over lines in proportion to `weights` (discounts, deposits, payments, an invoice's tax). The parts add
 * up to the total exactly; a fraction of a cent goes to the largest remainder, ties to the earlier line. A negative total
 * is split as its absolute value and negated, so that a refund returns what was charged line by line. All weights zero:
 * the lines share alike and the earlier ones take the odd cents, since a payment must land somewhere.
 *
 * @example allocate(cents(10000), [1, 1, 1]) // [3334, 3333, 3333]
 * @throws RangeError for a negative or non-finite weight, or a total other than zero without any weight.
 */
export function allocate(total: Cents, weights: readonly number[]): Cents[] {
  const size = BigInt(Math.abs(total));
  const sign = total < 0 ? -1 : 1;
  return largestRemainder(size, wholeWeights(weights)).map((part) => cents(sign * Number(part)));
}
