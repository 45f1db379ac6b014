import type { Role } from '#libs/access';
import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { StaffMemberRow } from '../data/staff-member.entity.js';
import { staffMemberResponse } from '../data/staff-member.mapping.js';
import type { StaffMemberResponse } from '../dto/staff.response.js';
import { rolesMissing } from './add-staff-member.js';
import { mayTouch, othersAdminister } from './administrator-rule.js';
import { endSessions } from './end-sessions.js';

export interface StaffChange {
  readonly displayName?: string;
  readonly email?: string | null;
  readonly roles?: readonly Role[];
  readonly isActive?: boolean;
}

/** Somebody who leaves is deactivated, never deleted: their hours and signatures stay. */
export async function changeStaffMember(
  tx: Tx,
  staffId: string,
  version: number | '*',
  change: StaffChange,
): Promise<Result<StaffMemberResponse>> {
  // Before the person's own row, so that every change of an administrator locks in the same order.
  const hasOtherAdministrator = await othersAdminister(tx, staffId);
  const row = await tx.em.findOne(StaffMemberRow, {
    where: { shopId: tx.shopId, id: staffId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!row) return fail('not-found', 'There is nobody with this id in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const allowed = mayTouch(tx.actor, row.roles, change.roles);
  if (!allowed.ok) return allowed;
  if (change.roles?.length === 0) return rolesMissing();

  const changed = {
    ...definedOnly({
      displayName: change.displayName,
      email: change.email?.toLowerCase() ?? change.email,
      roles: change.roles && [...new Set<string>(change.roles)],
      isActive: change.isActive,
    }),
    version: row.version + 1,
  };
  const after: StaffMemberRow = { ...row, ...changed };
  if (administers(row) && !administers(after) && !hasOtherAdministrator)
    return fail('last-administrator', 'This is the last administrator. Make somebody else one first.');
  await tx.em.update(StaffMemberRow, { shopId: tx.shopId, id: staffId }, changed);
  if (row.isActive && !after.isActive) await endSessions(tx, { staffId }, 'deactivated');
  await tx.audit('staff.change', 'staff', staffId, definedOnly(change));
  return ok(staffMemberResponse(after, tx.wall));
}

const administers = (row: StaffMemberRow): boolean => row.isActive && row.roles.includes('administrator');
