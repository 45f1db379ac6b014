import { can, isRole } from '#libs/access';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { StaffMemberRow } from '../data/staff-member.entity.js';
import { isLocked } from '../sign-in/attempts.js';
import { hashSecret, matchesSecret } from '../sign-in/secret-hash.js';
import { passwordFault } from '../sign-in/secret-policy.js';
import { lockedFault } from '../sign-in/sign-in-faults.js';
import { mayTouch } from './administrator-rule.js';
import { countWrongAttempt } from './count-wrong-attempt.js';
import { endSessions } from './end-sessions.js';

export interface NewPassword {
  readonly password: string;
  /** Needed to change the own one. */
  readonly currentPassword?: string;
}

/**
 * One's own password with the present one, or somebody else's as a manager. Every other session of the person ends.
 * `isSet: false` means that the present password was wrong; that it was tried is counted like a wrong sign-in.
 */
export async function setPassword(
  tx: Tx,
  staffId: string,
  wanted: NewPassword,
): Promise<Result<{ isSet: boolean }>> {
  const key = { shopId: tx.shopId, id: staffId };
  const row = await tx.em.findOne(StaffMemberRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is nobody with this id in this shop.');
  if (!row.isActive) return fail('staff-inactive', 'Somebody who does not work here needs no password.');
  const isOwn = tx.actor.kind === 'staff' && tx.actor.staffId === staffId;
  const allowed = isOwn ? mayChangeOwn(row, wanted, tx.wall) : maySetForOther(tx, row);
  if (!allowed.ok) return allowed;
  const bad = passwordFault(wanted.password, [row.displayName, row.email]);
  if (bad) return fail('request-invalid', bad.detail, { fields: [bad] });
  if (isOwn && !(await matchesSecret(row.passwordHash, wanted.currentPassword ?? ''))) {
    await countWrongAttempt(tx, staffId, 'password');
    return ok({ isSet: false });
  }
  await tx.em.update(StaffMemberRow, key, {
    passwordHash: await hashSecret(wanted.password),
    failedSignIns: 0,
    lockedUntil: null,
    version: row.version + 1,
  });
  const except = isOwn ? tx.sessionId : undefined;
  await endSessions(tx, { staffId, except }, 'password-changed');
  await tx.audit('staff.set-password', 'staff', staffId, { isOwn });
  return ok({ isSet: true });
}

/** Without a password there is nothing to prove that a PIN typed on a tablet does not: a manager sets the first one. */
function mayChangeOwn(row: StaffMemberRow, wanted: NewPassword, at: Date): Result<void> {
  if (row.passwordHash === null) return fail('not-allowed', 'A manager sets the first password.');
  if (row.lockedUntil !== null && isLocked(row, at)) return lockedFault(row.lockedUntil, at);
  if (wanted.currentPassword !== undefined) return ok(undefined);
  return fail('request-invalid', 'Give your present password too.', {
    fields: [{ pointer: '/currentPassword', detail: 'Give your present password.' }],
  });
}

function maySetForOther(tx: Tx, row: StaffMemberRow): Result<void> {
  const { actor } = tx;
  const isManager = actor.kind === 'staff' && can(actor.roles.filter(isRole), 'staff.manage');
  if (actor.kind !== 'system' && !isManager)
    return fail('not-allowed', 'A manager sets the passwords of others. Ask one.');
  return mayTouch(actor, row.roles);
}
