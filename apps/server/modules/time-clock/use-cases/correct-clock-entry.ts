import { fail, ok, type Failed, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { takeWorkOrderInHand } from '../../work-orders/index.js';
import { checkEnd } from '../data/check-period.js';
import { activityWords, lockTechnician } from '../data/clock.js';
import { ClockEntryRow } from '../data/clock-entry.entity.js';
import type { CorrectClockEntryRequest } from '../dto/clock.request.js';
import type { ClockEntryResponse } from '../dto/clock.response.js';
import { clockEntry, overlappingEntry } from '../queries/clock-entries.query.js';

interface Target {
  readonly workOrderId: string | null;
  readonly indirectKind: string | null;
}

/**
 * A manager puts a recorded time right: the old entry stays, marked as superseded, and a new one says what it should
 * have been, who says so and why.
 */
export async function correctClockEntry(
  tx: Tx,
  entryId: string,
  request: CorrectClockEntryRequest,
): Promise<Result<ClockEntryResponse>> {
  const found = await clockEntry(tx, entryId);
  if (!found) return fail('not-found', 'There is no such clock entry in this shop.');
  const startedAt = new Date(request.startedAt);
  const endedAt = new Date(request.endedAt);
  const target = await targetOf(tx, found, request, startedAt);
  if (!target.ok) return target;
  await lockTechnician(tx, found.technicianId);
  const entry = (await clockEntry(tx, entryId)) ?? found;
  const may = mayBeCorrected(entry);
  if (!may.ok) return may;
  const period = checkEnd(tx, startedAt, endedAt, '/endedAt');
  if (!period.ok) return period;
  const other = await overlappingEntry(tx, entry.technicianId, startedAt, endedAt, entryId);
  if (other) return overlapsWith(other);
  const id = await supersede(tx, entry, target.value, request);
  return ok((await clockEntry(tx, id)) ?? entry);
}

function mayBeCorrected(entry: ClockEntryResponse): Result<void> {
  if (entry.supersededAt !== null)
    return fail(
      'clock-entry-corrected',
      'This entry was corrected already. Correct the one that took its place.',
      {
        facts: { supersededAt: entry.supersededAt },
      },
    );
  if (entry.endedAt === null)
    return fail('clock-entry-open', 'The clock is still running. Close the entry first.', {
      facts: { startedAt: entry.startedAt },
    });
  return ok(undefined);
}

/** Where the time belongs: as before unless the request says otherwise. Never to work before it was released. */
async function targetOf(
  tx: Tx,
  entry: ClockEntryResponse,
  { workOrderId, indirectKind }: CorrectClockEntryRequest,
  startedAt: Date,
): Promise<Result<Target>> {
  if (workOrderId !== undefined && indirectKind !== undefined)
    return fail('request-invalid', 'The time belongs to a work order or is indirect, not both.', {
      fields: [{ pointer: '/indirectKind', detail: 'Leave one of the two out.' }],
    });
  if (indirectKind !== undefined) return ok({ workOrderId: null, indirectKind });
  const id = workOrderId?.toLowerCase() ?? entry.workOrderId;
  if (id === null) return ok({ workOrderId: null, indirectKind: entry.indirectKind });
  const work = await takeWorkOrderInHand(tx, id);
  if (!work.ok) return work;
  const { row } = work.value;
  if (row.withdrawnAt !== null)
    return fail('work-not-authorised', `Work order ${row.number} was withdrawn; no time belongs to it.`);
  if (startedAt < row.releasedAt) return beforeRelease(row.number, row.releasedAt);
  return ok({ workOrderId: id, indirectKind: null });
}

function beforeRelease(number: number, releasedAt: Date): Failed {
  const detail = `Work order ${number} was released at ${releasedAt.toISOString()}; before that nobody had agreed to it.`;
  return fail('period-not-valid', detail, { fields: [{ pointer: '/startedAt', detail }] });
}

function overlapsWith(other: ClockEntryResponse): Failed {
  const { id, startedAt, endedAt, workOrderNumber, indirectKind } = other;
  return fail(
    'time-overlaps',
    `The technician was on ${activityWords(other)} from ${startedAt}${endedAt === null ? '' : ` to ${endedAt}`}.`,
    { facts: { entry: { id, startedAt, endedAt, workOrderNumber, indirectKind } } },
  );
}

async function supersede(
  tx: Tx,
  entry: ClockEntryResponse,
  { workOrderId, indirectKind }: Target,
  { startedAt, endedAt, reason }: CorrectClockEntryRequest,
): Promise<string> {
  const id = tx.newId();
  await tx.em.query(`update clock_entries set superseded_at = $3 where shop_id = $1 and id = $2`, [
    tx.shopId,
    entry.id,
    tx.now,
  ]);
  await tx.em.insert(ClockEntryRow, {
    shopId: tx.shopId,
    id,
    technicianId: entry.technicianId,
    kind: workOrderId === null ? 'indirect' : 'work',
    workOrderId,
    indirectKind,
    startedAt: new Date(startedAt),
    endedAt: new Date(endedAt),
    endKind: 'corrected',
    endedBy: tx.staffId,
    correctsId: entry.id,
    correctionReason: reason,
    recordedBy: tx.staffId,
  });
  await tx.audit('clock.correct', 'clock-entry', entry.id, {
    correctedBy: id,
    reason,
    technicianId: entry.technicianId,
  });
  for (const touched of new Set([entry.workOrderId, workOrderId]))
    tx.announce('clock', {
      clockEntryId: id,
      technicianId: entry.technicianId,
      ...(touched === null ? {} : { workOrderId: touched }),
    });
  return id;
}
