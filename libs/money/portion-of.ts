import { cents, type Cents, type Ppm } from '#libs/kernel';
import { divideRounded, type Rounding } from './rounding.js';

/** `rate` of `amount`, rounded once from the exact product, on the absolute value. */
export function portionOf(amount: Cents, rate: Ppm, rounding: Rounding = 'half-up'): Cents {
  return cents(Number(divideRounded(BigInt(amount) * BigInt(rate), 1_000_000n, rounding)));
}
