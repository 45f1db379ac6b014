import type { Decimal } from './decimal.js';
import { divideRounded, type Rounding } from './rounding.js';

/** The decimal to `scale` digits after the point, rounded once and from the exact value. */
export function roundDecimal(value: Decimal, scale: number, rounding: Rounding = 'half-up'): Decimal {
  const shift = scale - value.scale;
  const units =
    shift >= 0
      ? value.units * 10n ** BigInt(shift)
      : divideRounded(value.units, 10n ** BigInt(-shift), rounding);
  return { units, scale };
}
