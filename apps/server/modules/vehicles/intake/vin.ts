import { fail, ok, type Result } from '#libs/kernel';
import { checkVin } from '#libs/vin';

export interface KeptVin {
  readonly vin: string | null;
  readonly vinVerdict: string | null;
}

/**
 * A VIN that does not check out never keeps a car outside: whoever compared it with the vehicle may keep it, and the
 * verdict stays beside it. Only what holds no letter or digit at all is refused for good.
 */
export function keepVin(
  typed: string | null,
  modelYear: number | null,
  isAccepted: boolean,
): Result<KeptVin> {
  if (typed === null) return ok({ vin: null, vinVerdict: null });
  const check = checkVin(typed, modelYear ?? undefined);
  const isEmpty = check.reason === 'EMPTY';
  if (check.verdict !== 'reject' || (isAccepted && !isEmpty))
    return ok({ vin: check.normalised, vinVerdict: check.verdict });
  const detail = isEmpty
    ? check.sentence
    : `${check.sentence} If the vehicle really carries this number, send vinAccepted too.`;
  return fail('vin-not-valid', detail, {
    fields: [{ pointer: '/vin', detail }],
    facts: { reason: check.reason, normalised: check.normalised, checkDigit: check.checkDigit },
  });
}
