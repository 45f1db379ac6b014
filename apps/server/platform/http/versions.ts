import { fail, ok, type Result } from '#libs/kernel';

/** Compares the version a change is based on with the one stored. The caller holds the row locked. */
export function checkVersion(wanted: number | '*', stored: number): Result<void> {
  if (wanted === '*' || wanted === stored) return ok(undefined);
  return fail(
    'stale-version',
    'Somebody else changed this since you read it. Load it again, then repeat your change.',
    { facts: { currentVersion: stored } },
  );
}
