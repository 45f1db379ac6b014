import { cents, fail, ok, type Cents, type Fault, type Result } from '#libs/kernel';
import { parseDecimal } from './parse-decimal.js';
import { roundDecimal } from './round-decimal.js';

export type AmountFault = Fault<'decimal-invalid' | 'amount-too-fine' | 'amount-too-large'>;

/** Reads an amount of money such as "1234.5" as whole cents. A fraction of a cent is refused, not rounded away. */
export function parseDecimalCents(text: string): Result<Cents, AmountFault> {
  const parsed = parseDecimal(text.trim());
  if (!parsed.ok) return parsed;
  const rounded = roundDecimal(parsed.value, 2);
  if (rounded.units * 10n ** BigInt(parsed.value.scale) !== parsed.value.units * 100n) {
    return fail('amount-too-fine', 'An amount has at most two digits after the point: enter whole cents.');
  }
  const value = Number(rounded.units);
  if (!Number.isSafeInteger(value)) {
    return fail(
      'amount-too-large',
      'The amount is larger than can be kept exactly: enter less than 90 trillion.',
    );
  }
  return ok(cents(value));
}
