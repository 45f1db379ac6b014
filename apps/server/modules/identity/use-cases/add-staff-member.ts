import type { Role } from '#libs/access';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { StaffMemberRow } from '../data/staff-member.entity.js';
import { staffMemberResponse } from '../data/staff-member.mapping.js';
import type { StaffMemberResponse } from '../dto/staff.response.js';
import { mayTouch } from './administrator-rule.js';

export interface NewStaffMember {
  readonly displayName: string;
  readonly email?: string | null;
  readonly roles: readonly Role[];
}

/** Somebody who works here. The password and the PIN are set apart, so that they are never part of a kept request. */
export async function addStaffMember(tx: Tx, person: NewStaffMember): Promise<Result<StaffMemberResponse>> {
  const allowed = mayTouch(tx.actor, [], person.roles);
  if (!allowed.ok) return allowed;
  if (person.roles.length === 0) return rolesMissing();
  const row = tx.em.create(StaffMemberRow, {
    shopId: tx.shopId,
    id: tx.newId(),
    displayName: person.displayName,
    email: person.email?.toLowerCase() ?? null,
    roles: [...new Set(person.roles)],
    passwordHash: null,
    pinHash: null,
    isActive: true,
    failedSignIns: 0,
    lockedUntil: null,
    failedPins: 0,
    pinLockedUntil: null,
    version: 1,
    createdAt: tx.now,
  });
  await tx.em.insert(StaffMemberRow, row);
  await tx.audit('staff.add', 'staff', row.id, { roles: row.roles });
  return ok(staffMemberResponse(row, tx.wall));
}

export function rolesMissing(): Result<never> {
  return fail('request-invalid', 'Somebody who works here has at least one role.', {
    fields: [{ pointer: '/roles', detail: 'Choose at least one role.' }],
  });
}
