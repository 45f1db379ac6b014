import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { StaffMemberRow } from '../data/staff-member.entity.js';
import { rolesBy } from '../sign-in/roles-by.js';
import { hashSecret } from '../sign-in/secret-hash.js';
import { pinFault } from '../sign-in/secret-policy.js';
import { mayTouch } from './administrator-rule.js';
import { endSessions } from './end-sessions.js';

/** For the tablets in the bays. Null takes the PIN away. Sessions that were opened with the old one end. */
export async function setPin(tx: Tx, staffId: string, pin: string | null): Promise<Result<void>> {
  const key = { shopId: tx.shopId, id: staffId };
  const row = await tx.em.findOne(StaffMemberRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is nobody with this id in this shop.');
  const allowed = mayTouch(tx.actor, row.roles);
  if (!allowed.ok) return allowed;
  if (!row.isActive) return fail('staff-inactive', 'Somebody who does not work here needs no PIN.');
  const bad =
    pin === null
      ? undefined
      : rolesBy('pin', row.roles).length === 0
        ? { pointer: '/pin', detail: 'An administrator without another role signs in with a password only.' }
        : pinFault(pin);
  if (bad) return fail('request-invalid', bad.detail, { fields: [bad] });
  await tx.em.update(StaffMemberRow, key, {
    pinHash: pin === null ? null : await hashSecret(pin),
    failedPins: 0,
    pinLockedUntil: null,
    version: row.version + 1,
  });
  await endSessions(tx, { staffId, how: 'pin' }, 'pin-changed');
  await tx.audit('staff.set-pin', 'staff', staffId, { isRemoved: pin === null });
  return ok(undefined);
}
