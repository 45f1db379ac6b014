import type { Cents, Ppm } from '#libs/kernel';
import { portionOf } from './portion-of.js';
import type { Rounding } from './rounding.js';

/**
 * Tax on one amount, rounded once from the exact product. For a positive amount half up is the statutory "carry to the
 * third decimal, round up when it is above four" (Streamlined Sales and Use Tax Agreement s. 324); the third decimal is
 * never rounded first. A credit is taxed on its absolute value and negated, so a full refund returns the tax charged.
 */
export function taxOn(amount: Cents, rate: Ppm, rounding: Rounding = 'half-up'): Cents {
  return portionOf(amount, rate, rounding);
}
