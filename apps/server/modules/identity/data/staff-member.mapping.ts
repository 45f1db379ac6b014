import type { StaffMemberResponse } from '../dto/staff.response.js';
import type { StaffMemberRow } from './staff-member.entity.js';

/** Hashes and counters stay inside; a lock is shown only while it holds. */
export function staffMemberResponse(row: StaffMemberRow, at: Date): StaffMemberResponse {
  const until = (moment: Date | null): string | null =>
    moment !== null && moment > at ? moment.toISOString() : null;
  return {
    id: row.id,
    displayName: row.displayName,
    email: row.email,
    roles: row.roles,
    isActive: row.isActive,
    hasPassword: row.passwordHash !== null,
    hasPin: row.pinHash !== null,
    lockedUntil: until(row.lockedUntil),
    pinLockedUntil: until(row.pinLockedUntil),
    version: row.version,
  };
}
