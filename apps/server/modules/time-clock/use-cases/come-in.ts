import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { AttendanceEntryRow } from '../data/attendance-entry.entity.js';
import { lockTechnician } from '../data/clock.js';
import type { AttendanceEntryResponse } from '../dto/clock.response.js';
import { attendanceEntry, openAttendanceOf } from '../queries/attendance.query.js';

/** The signed-in person is in the building. */
export async function comeIn(tx: Tx): Promise<Result<AttendanceEntryResponse>> {
  await lockTechnician(tx, tx.staffId);
  const open = await openAttendanceOf(tx, tx.staffId);
  if (open)
    return fail('already-in-attendance', `You are in since ${open.startedAt}.`, {
      facts: { entry: { id: open.id, startedAt: open.startedAt } },
    });
  const id = tx.newId();
  await tx.em.insert(AttendanceEntryRow, {
    shopId: tx.shopId,
    id,
    technicianId: tx.staffId,
    startedAt: await nextIn(tx),
    recordedBy: tx.staffId,
  });
  tx.announce('clock', { attendanceEntryId: id, technicianId: tx.staffId });
  const made = await attendanceEntry(tx, id);
  if (!made) throw new Error('an entry that was just written is there');
  return ok(made);
}

/** Out and in within one millisecond: the new one begins where the old one ended. */
async function nextIn(tx: Tx): Promise<Date> {
  const row = await tx.one<{ at: Date | null }>(
    `select max(ended_at) as at from attendance_entries
      where shop_id = $1 and technician_id = $2 and superseded_at is null and ended_at > $3`,
    [tx.shopId, tx.staffId, tx.now],
  );
  return row?.at ?? tx.now;
}
