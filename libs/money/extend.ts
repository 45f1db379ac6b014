import { cents, type Cents } from '#libs/kernel';
import { divideHalfUp } from './divide-half-up.js';

/**
 * Quantity times unit price, half up on the exact product. The quantity is in whole hundredths (4.5 litres are 450).
 *
 * @throws RangeError when the quantity is not a whole number of hundredths.
 */
export function extend(quantityHundredths: number, unitPriceCents: Cents): Cents {
  return cents(Number(divideHalfUp(BigInt(quantityHundredths) * BigInt(unitPriceCents), 100n)));
}
