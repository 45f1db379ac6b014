import { fail, ok, type Fault, type Result } from '#libs/kernel';
import type { Decimal } from './decimal.js';
import { divideRounded, type Rounding } from './rounding.js';

/**
 * The margin that a markup leaves, both as fractions of one: markup / (1 + markup), rounded once to `scale` digits. A
 * negative markup is a sale below cost; at -1 or less the price is nothing and there is no margin.
 */
export function marginFromMarkup(
  markup: Decimal,
  scale: number,
  rounding: Rounding = 'half-up',
): Result<Decimal, Fault<'markup-invalid'>> {
  const one = 10n ** BigInt(markup.scale);
  if (markup.units <= -one) {
    return fail('markup-invalid', 'A markup is more than -100 percent: below that nothing is paid.');
  }
  const units = divideRounded(markup.units * 10n ** BigInt(scale), one + markup.units, rounding);
  return ok({ units, scale });
}
