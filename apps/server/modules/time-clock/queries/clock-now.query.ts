import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { ClockNowResponse } from '../dto/clock.response.js';
import { openAttendanceOf } from './attendance.query.js';
import { openEntryOf } from './clock-entries.query.js';

export async function clockNow(tx: Tx): Promise<Result<ClockNowResponse>> {
  return ok({
    entry: (await openEntryOf(tx, tx.staffId)) ?? null,
    attendance: (await openAttendanceOf(tx, tx.staffId)) ?? null,
  });
}
