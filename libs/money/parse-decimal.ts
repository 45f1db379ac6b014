import { fail, ok, type Fault, type Result } from '#libs/kernel';
import type { Decimal } from './decimal.js';

/** Longer than any amount or rate, short enough that a pasted novel costs nothing. */
const MOST_CHARACTERS = 400;

/**
 * Reads "10.05", "-3", ".065". No exponent, no thousands separator, no currency sign, so that no two people can read
 * the same text as two numbers.
 */
export function parseDecimal(text: string): Result<Decimal, Fault<'decimal-invalid'>> {
  const match = text.length <= MOST_CHARACTERS ? /^(-?)(\d*)(?:\.(\d+))?$/.exec(text) : null;
  const [, sign = '', whole = '', fraction = ''] = match ?? [];
  if (match === null || whole + fraction === '') {
    return fail(
      'decimal-invalid',
      'Write a plain decimal number such as "10.05": digits, one point, no separators.',
    );
  }
  const size = BigInt(whole + fraction);
  return ok({ units: sign === '-' ? -size : size, scale: fraction.length });
}
