import { cents, type Cents, type Ppm } from '#libs/kernel';
import { portionOf } from './portion-of.js';

/** The price of something bought at `cost` and sold with `markup` on top of the cost, half up. */
export function markUp(cost: Cents, markup: Ppm): Cents {
  return cents(cost + portionOf(cost, markup));
}
