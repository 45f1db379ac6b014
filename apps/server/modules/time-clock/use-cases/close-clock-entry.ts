import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkEnd } from '../data/check-period.js';
import { lockTechnician } from '../data/clock.js';
import type { CloseEntryRequest } from '../dto/clock.request.js';
import type { ClockEntryResponse } from '../dto/clock.response.js';
import { clockEntry } from '../queries/clock-entries.query.js';

/** A clock that somebody forgot, stopped by a manager who says when the work really ended and how that is known. */
export async function closeClockEntry(
  tx: Tx,
  entryId: string,
  { at, reason }: CloseEntryRequest,
): Promise<Result<ClockEntryResponse>> {
  const found = await clockEntry(tx, entryId);
  if (!found) return fail('not-found', 'There is no such clock entry in this shop.');
  await lockTechnician(tx, found.technicianId);
  const entry = (await clockEntry(tx, entryId)) ?? found;
  if (entry.endedAt !== null || entry.supersededAt !== null)
    return fail('clock-entry-ended', 'This clock entry has ended already. Correct it if the time is wrong.', {
      facts: { endedAt: entry.endedAt, endKind: entry.endKind },
    });
  const endedAt = new Date(at);
  const period = checkEnd(tx, new Date(entry.startedAt), endedAt, '/at');
  if (!period.ok) return period;
  const ended = await tx.one(
    `update clock_entries set ended_at = $3, end_kind = 'closed-by-manager', end_reason = $4, ended_by = $5
      where shop_id = $1 and id = $2 and ended_at is null and superseded_at is null returning id`,
    [tx.shopId, entryId, endedAt, reason, tx.staffId],
  );
  if (!ended) return fail('clock-entry-ended', 'This clock entry has ended at the same moment.');
  await tx.audit('clock.close', 'clock-entry', entryId, {
    at: endedAt,
    reason,
    technicianId: entry.technicianId,
  });
  tx.announce('clock', {
    clockEntryId: entryId,
    technicianId: entry.technicianId,
    ...(entry.workOrderId === null ? {} : { workOrderId: entry.workOrderId }),
  });
  return ok((await clockEntry(tx, entryId)) ?? entry);
}
