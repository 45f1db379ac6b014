import { cents, type Cents, type Ppm } from '#libs/kernel';
import type { Rounding } from './rounding.js';
import { taxOn } from './tax-on.js';

/**
 * Tax rounded once on the sum of the lines: the "invoice" basis of SSUTA s. 324(B). To show it line by line, `allocate`
 * it over the lines.
 */
export function taxPerInvoice(lines: readonly Cents[], rate: Ppm, rounding: Rounding = 'half-up'): Cents {
  return taxOn(cents(lines.reduce<number>((sum, line) => sum + line, 0)), rate, rounding);
}
