import { fail, ok, ppm, type Fault, type Ppm, type Result } from '#libs/kernel';
import { parseDecimal } from './parse-decimal.js';
import { roundDecimal } from './round-decimal.js';

export type RateFault = Fault<'decimal-invalid' | 'rate-negative' | 'rate-too-fine' | 'rate-too-large'>;

/**
 * Reads a rate written as a fraction of one ("0.065" for 6.5 %) as whole millionths. A finer rate is refused, not
 * rounded: use `taxOnDecimal` for it.
 */
export function parseRatePpm(text: string): Result<Ppm, RateFault> {
  const parsed = parseDecimal(text.trim());
  if (!parsed.ok) return parsed;
  const { units, scale } = parsed.value;
  if (units < 0n) return fail('rate-negative', 'A rate is zero or more: enter it without the minus sign.');
  const rounded = roundDecimal(parsed.value, 6);
  if (rounded.units * 10n ** BigInt(scale) !== units * 1_000_000n) {
    return fail(
      'rate-too-fine',
      'A rate has at most six digits after the point, such as "0.065" for 6.5 percent.',
    );
  }
  const value = Number(rounded.units);
  if (!Number.isSafeInteger(value)) {
    return fail('rate-too-large', 'The rate is too large: write 6.5 percent as "0.065".');
  }
  return ok(ppm(value));
}
