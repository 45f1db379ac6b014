import type { Cents } from '#libs/kernel';
import type { Decimal } from './decimal.js';

/** The amount as an exact decimal in whole units of the currency; `formatDecimal` of it reads back with `parseDecimalCents`. */
export function decimalFromCents(amount: Cents): Decimal {
  return { units: BigInt(amount), scale: 2 };
}
