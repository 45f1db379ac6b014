import type { AlreadyAgreed } from './already-agreed.js';
import type { OrderDiscount } from './order-discount.js';
import { FEE } from './prepare-estimate.js';
import { splitCents } from './split-cents.js';

/**
 * What an amount off the order takes from labour, parts, fluids and sublet of a choice (the first of `CHARGES`), by what
 * they cost: never more than they cost, and only what was not given before.
 */
export function amountOffOrder(
  discount: OrderDiscount | undefined,
  given: AlreadyAgreed,
  charges: readonly number[],
): number[] {
  const reducible = charges.slice(0, FEE);
  if (discount?.cents === undefined) return reducible.map(() => 0);
  const open = Math.max(0, discount.cents - (given.orderDiscountCents ?? 0));
  const whole = reducible.reduce((sum, charge) => sum + charge, 0);
  return splitCents(Math.min(open, whole), reducible);
}
