import { decimalFromNumber, parseDecimal, type Decimal } from '#libs/money';
import type { FieldReader } from './field-reader.js';

const NOTHING: Decimal = { units: 0n, scale: 0 };

/** An exact amount of any fineness; the result is what gets rounded, not the input. */
export function readAmount(read: FieldReader, field: string, text: string): Decimal {
  return read.parsed(field, parseDecimal(text.trim()), NOTHING);
}

/** A rate as a fraction of one; a negative one has no meaning. */
export function readRate(read: FieldReader): Decimal {
  const rate = readAmount(read, 'rate', read.text('rate'));
  if (rate.units < 0n) read.invalid('rate', 'must be zero or more, such as "0.065" for 6.5 percent');
  return rate;
}

/** A number or the text of one, exactly as it is written. */
export function readNumber(read: FieldReader, field: string): Decimal {
  const value = read.numberOrText(field);
  return typeof value === 'number' ? decimalFromNumber(value) : readAmount(read, field, value);
}
