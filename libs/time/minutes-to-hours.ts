import { fail, ok, type Fault, type Result } from '#libs/kernel';
import { divideHalfUp, formatDecimal } from '#libs/money';

export interface DecimalHours {
  /** To the hundredth of an hour, "0.12". */
  readonly hours2: string;
  /** To the tenth of an hour, "0.1". */
  readonly tenths: string;
}

/** Whole minutes as decimal hours; both figures are rounded half up from the exact fraction, not one from the other. */
export function minutesToHours(minutes: number): Result<DecimalHours, Fault<'minutes-invalid'>> {
  if (!Number.isSafeInteger(minutes) || minutes < 0) {
    return fail('minutes-invalid', 'Enter whole minutes, zero or more.');
  }
  const exact = BigInt(minutes);
  return ok({
    hours2: formatDecimal({ units: divideHalfUp(exact * 100n, 60n), scale: 2 }),
    tenths: formatDecimal({ units: divideHalfUp(exact * 10n, 60n), scale: 1 }),
  });
}
