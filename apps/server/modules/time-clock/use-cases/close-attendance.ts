import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkEnd } from '../data/check-period.js';
import { lockTechnician } from '../data/clock.js';
import type { CloseEntryRequest } from '../dto/clock.request.js';
import type { AttendanceEntryResponse } from '../dto/clock.response.js';
import { attendanceEntry } from '../queries/attendance.query.js';

/** Somebody went home without saying so; a manager says when, and how that is known (kept in the audit). */
export async function closeAttendance(
  tx: Tx,
  entryId: string,
  { at, reason }: CloseEntryRequest,
): Promise<Result<AttendanceEntryResponse>> {
  const found = await attendanceEntry(tx, entryId);
  if (!found) return fail('not-found', 'There is no such attendance in this shop.');
  await lockTechnician(tx, found.technicianId);
  const entry = (await attendanceEntry(tx, entryId)) ?? found;
  if (entry.endedAt !== null || entry.supersededAt !== null)
    return fail('clock-entry-ended', 'This attendance has ended already. Correct it if the time is wrong.', {
      facts: { endedAt: entry.endedAt },
    });
  const endedAt = new Date(at);
  const period = checkEnd(tx, new Date(entry.startedAt), endedAt, '/at');
  if (!period.ok) return period;
  await tx.em.query(
    `update attendance_entries set ended_at = $3, ended_by = $4 where shop_id = $1 and id = $2`,
    [tx.shopId, entryId, endedAt, tx.staffId],
  );
  await tx.audit('attendance.close', 'attendance-entry', entryId, {
    at: endedAt,
    reason,
    technicianId: entry.technicianId,
  });
  tx.announce('clock', { attendanceEntryId: entryId, technicianId: entry.technicianId });
  return ok((await attendanceEntry(tx, entryId)) ?? entry);
}
