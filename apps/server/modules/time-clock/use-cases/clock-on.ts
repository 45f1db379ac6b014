import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { holdForWork, takeAuthorisedWork } from '../data/begin-work.js';
import { alreadyOn, beginEntry, lockTechnician, nextStart } from '../data/clock.js';
import type { ClockOnRequest } from '../dto/clock.request.js';
import type { ClockActResponse } from '../dto/clock.response.js';
import { notAuthorised } from '../queries/answer.query.js';
import { clockAct } from '../queries/clock-act.query.js';
import { openEntryOf } from '../queries/clock-entries.query.js';

/** The signed-in person begins to work on a work order. Nothing is clocked that the owner has not agreed to. */
export async function clockOn(tx: Tx, request: ClockOnRequest): Promise<Result<ClockActResponse>> {
  const target = await workOrderOf(tx, request);
  if (!target.ok) return target;
  const work = await takeAuthorisedWork(tx, target.value);
  if (!work.ok) return work;
  await lockTechnician(tx, tx.staffId);
  const running = await openEntryOf(tx, tx.staffId);
  if (running) return alreadyOn(running);
  const held = await holdForWork(tx, work.value);
  if (!held.ok) return held;
  const id = await beginEntry(tx, { workOrderId: work.value.row.id }, await nextStart(tx, tx.staffId));
  return ok(await clockAct(tx, id));
}

async function workOrderOf(tx: Tx, { workOrderId, lineId }: ClockOnRequest): Promise<Result<string>> {
  if (workOrderId !== undefined && lineId === undefined) return ok(workOrderId);
  if (workOrderId !== undefined || lineId === undefined)
    return fail('request-invalid', 'Say either the work order or the line.', {
      fields: ['/workOrderId', '/lineId'].map((pointer) => ({
        pointer,
        detail: 'Give exactly one of the two.',
      })),
    });
  const open = await tx.one<{ id: string }>(
    'select id from work_orders where shop_id = $1 and line_id = $2 and withdrawn_at is null',
    [tx.shopId, lineId],
  );
  return open ? ok(open.id) : notAuthorised(tx, lineId);
}
