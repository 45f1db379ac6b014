import type { Decimal } from './decimal.js';

/**
 * A number as the decimal that it prints as: 0.1 is one tenth, not its binary neighbour.
 *
 * @throws RangeError for an infinite value or one that is not a number.
 */
export function decimalFromNumber(value: number): Decimal {
  if (!Number.isFinite(value)) throw new RangeError(`decimalFromNumber: ${value} is not a number`);
  const [mantissa = '0', exponent = '0'] = String(Math.abs(value)).split('e');
  const [whole = '0', fraction = ''] = mantissa.split('.');
  const size = BigInt(whole + fraction);
  const units = value < 0 ? -size : size;
  const scale = fraction.length - Number(exponent);
  return scale < 0 ? { units: units * 10n ** BigInt(-scale), scale: 0 } : { units, scale };
}
