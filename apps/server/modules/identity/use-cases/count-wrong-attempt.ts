import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { StaffMemberRow } from '../data/staff-member.entity.js';
import { afterWrong } from '../sign-in/attempts.js';
import type { How } from '../sign-in/roles-by.js';

/**
 * A wrong password or PIN, as a fact that is committed although the answer is a refusal. Passwords and PINs are
 * counted apart: whoever plays with a tablet in the bay cannot lock anybody out of the desk.
 */
export async function countWrongAttempt(
  tx: Tx,
  staffId: string,
  how: How,
): Promise<Result<{ lockedUntil: Date | null }>> {
  const key = { shopId: tx.shopId, id: staffId };
  const person = await tx.em.findOne(StaffMemberRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!person) return ok({ lockedUntil: null });
  const before =
    how === 'pin'
      ? { failed: person.failedPins, lockedUntil: person.pinLockedUntil }
      : { failed: person.failedSignIns, lockedUntil: person.lockedUntil };
  const after = afterWrong(before, tx.wall);
  await tx.em.update(
    StaffMemberRow,
    key,
    how === 'pin'
      ? { failedPins: after.failed, pinLockedUntil: after.lockedUntil }
      : { failedSignIns: after.failed, lockedUntil: after.lockedUntil },
  );
  if (after.lockedUntil !== null && before !== after)
    await tx.audit('staff.lock', 'staff', staffId, { how, until: after.lockedUntil.toISOString() });
  return ok({ lockedUntil: after.lockedUntil });
}
