import type { Tx } from '../../../platform/database/tx.js';
import type { ClockActResponse, ClockWarningResponse } from '../dto/clock.response.js';
import { clockEntry } from './clock-entries.query.js';

/** The answer to an act on the clock: the entry that it began or ended, and what a switch ended. */
export async function clockAct(tx: Tx, entryId: string, endedId?: string): Promise<ClockActResponse> {
  const entry = await clockEntry(tx, entryId);
  if (!entry) throw new Error('an entry that was just written is there');
  return {
    entry,
    ended: endedId === undefined ? null : ((await clockEntry(tx, endedId)) ?? null),
    warnings: entry.endedAt === null ? await attendanceWarning(tx) : [],
  };
}

/** Attendance is a fact of its own and is not begun by the way: somebody may have forgotten it hours ago. */
async function attendanceWarning(tx: Tx): Promise<ClockWarningResponse[]> {
  const isIn = await tx.one(
    `select id from attendance_entries
      where shop_id = $1 and technician_id = $2 and ended_at is null and superseded_at is null`,
    [tx.shopId, tx.staffId],
  );
  return isIn
    ? []
    : [{ code: 'not-in-attendance', detail: 'You are on the clock but not in. Record when you came in.' }];
}
