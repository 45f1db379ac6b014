import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { StaffMemberRow } from '../data/staff-member.entity.js';
import { staffMemberResponse } from '../data/staff-member.mapping.js';
import type { StaffListResponse, StaffMemberResponse } from '../dto/staff.response.js';

/** Few enough in any shop for one answer; who works here now comes first. */
export async function allStaff(tx: Tx): Promise<Result<StaffListResponse>> {
  const rows = await tx.em.find(StaffMemberRow, {
    where: { shopId: tx.shopId },
    order: { isActive: 'DESC', displayName: 'ASC', id: 'ASC' },
  });
  return ok({ items: rows.map((row) => staffMemberResponse(row, tx.wall)) });
}

export async function staffMember(tx: Tx, staffId: string): Promise<Result<StaffMemberResponse>> {
  const row = await tx.em.findOneBy(StaffMemberRow, { shopId: tx.shopId, id: staffId });
  if (!row) return fail('not-found', 'There is nobody with this id in this shop.');
  return ok(staffMemberResponse(row, tx.wall));
}
