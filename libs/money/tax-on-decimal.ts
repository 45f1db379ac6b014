import type { Decimal } from './decimal.js';
import { roundDecimal } from './round-decimal.js';
import type { Rounding } from './rounding.js';

/** Tax in cents (scale 2) on an exact amount at an exact rate of any fineness; rounded once, from the exact product. */
export function taxOnDecimal(amount: Decimal, rate: Decimal, rounding: Rounding = 'half-up'): Decimal {
  return roundDecimal({ units: amount.units * rate.units, scale: amount.scale + rate.scale }, 2, rounding);
}
