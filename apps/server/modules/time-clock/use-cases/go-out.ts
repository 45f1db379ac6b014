import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { activityWords, lockTechnician } from '../data/clock.js';
import type { AttendanceEntryResponse } from '../dto/clock.response.js';
import { attendanceEntry, openAttendanceOf } from '../queries/attendance.query.js';
import { openEntryOf } from '../queries/clock-entries.query.js';

/** The signed-in person leaves. Not with the clock still running: that is how hours nobody worked come about. */
export async function goOut(tx: Tx): Promise<Result<AttendanceEntryResponse>> {
  await lockTechnician(tx, tx.staffId);
  const open = await openAttendanceOf(tx, tx.staffId);
  if (!open) return fail('not-in-attendance', 'You are not in, so you cannot go out.');
  const running = await openEntryOf(tx, tx.staffId);
  if (running)
    return fail('clock-entry-open', `You are on the clock on ${activityWords(running)}. Clock off first.`, {
      facts: { entry: { id: running.id, startedAt: running.startedAt } },
    });
  await tx.em.query(
    `update attendance_entries set ended_at = greatest($3::timestamptz, started_at + interval '1 millisecond'), ended_by = $4
      where shop_id = $1 and id = $2`,
    [tx.shopId, open.id, tx.now, tx.staffId],
  );
  tx.announce('clock', { attendanceEntryId: open.id, technicianId: tx.staffId });
  return ok((await attendanceEntry(tx, open.id)) ?? open);
}
