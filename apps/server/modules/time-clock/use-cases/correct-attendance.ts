import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { AttendanceEntryRow } from '../data/attendance-entry.entity.js';
import { checkEnd } from '../data/check-period.js';
import { lockTechnician } from '../data/clock.js';
import type { CorrectAttendanceRequest } from '../dto/clock.request.js';
import type { AttendanceEntryResponse } from '../dto/clock.response.js';
import { attendanceEntry, overlappingAttendance } from '../queries/attendance.query.js';

/** As with the clock: the old entry stays, marked; a new one says what it should have been, who says so and why. */
export async function correctAttendance(
  tx: Tx,
  entryId: string,
  request: CorrectAttendanceRequest,
): Promise<Result<AttendanceEntryResponse>> {
  const found = await attendanceEntry(tx, entryId);
  if (!found) return fail('not-found', 'There is no such attendance in this shop.');
  await lockTechnician(tx, found.technicianId);
  const entry = (await attendanceEntry(tx, entryId)) ?? found;
  const may = mayBeCorrected(entry);
  if (!may.ok) return may;
  const [startedAt, endedAt] = [new Date(request.startedAt), new Date(request.endedAt)];
  const period = checkEnd(tx, startedAt, endedAt, '/endedAt');
  if (!period.ok) return period;
  const other = await overlappingAttendance(tx, entry.technicianId, startedAt, endedAt, entryId);
  if (other)
    return fail('time-overlaps', `The technician was in from ${other.startedAt} already.`, {
      facts: { entry: { id: other.id, startedAt: other.startedAt, endedAt: other.endedAt } },
    });
  const id = tx.newId();
  await tx.em.query(`update attendance_entries set superseded_at = $3 where shop_id = $1 and id = $2`, [
    tx.shopId,
    entryId,
    tx.now,
  ]);
  await tx.em.insert(AttendanceEntryRow, {
    shopId: tx.shopId,
    id,
    technicianId: entry.technicianId,
    startedAt,
    endedAt,
    endedBy: tx.staffId,
    correctsId: entryId,
    correctionReason: request.reason,
    recordedBy: tx.staffId,
  });
  await tx.audit('attendance.correct', 'attendance-entry', entryId, {
    correctedBy: id,
    reason: request.reason,
  });
  tx.announce('clock', { attendanceEntryId: id, technicianId: entry.technicianId });
  return ok((await attendanceEntry(tx, id)) ?? entry);
}

function mayBeCorrected(entry: AttendanceEntryResponse): Result<void> {
  if (entry.supersededAt !== null)
    return fail(
      'clock-entry-corrected',
      'This was corrected already. Correct the entry that took its place.',
      {
        facts: { supersededAt: entry.supersededAt },
      },
    );
  return entry.endedAt === null
    ? fail('clock-entry-open', 'The person is still in. Close the attendance first.')
    : ok(undefined);
}
