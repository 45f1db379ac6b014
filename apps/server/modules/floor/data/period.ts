import { fail, ok, type Result } from '#libs/kernel';

const LONGEST_DAYS = 731;

/** Ends after it begins, and is not so long that a year must have been mistyped. An open end is as good as any. */
export function checkPeriod(startsAt: Date, endsAt: Date | null): Result<void> {
  const days = endsAt === null ? 1 : (endsAt.getTime() - startsAt.getTime()) / 86_400_000;
  if (days > 0 && days <= LONGEST_DAYS) return ok(undefined);
  const detail =
    days > 0 ? `At most ${LONGEST_DAYS} days: look at the year.` : 'The end must be later than the start.';
  return fail('period-not-valid', detail, { fields: [{ pointer: '/endsAt', detail }] });
}
