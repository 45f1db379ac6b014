import { cents, type Cents, type Ppm } from '#libs/kernel';
import type { Rounding } from './rounding.js';
import { taxOn } from './tax-on.js';

export interface TaxPerLine {
  readonly perLine: readonly Cents[];
  readonly total: Cents;
}

/** Tax rounded on each line and added up: the "item" basis of SSUTA s. 324(B). The document must say which basis it used. */
export function taxPerLine(lines: readonly Cents[], rate: Ppm, rounding: Rounding = 'half-up'): TaxPerLine {
  const perLine = lines.map((line) => taxOn(line, rate, rounding));
  return { perLine, total: cents(perLine.reduce<number>((sum, tax) => sum + tax, 0)) };
}
