import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { allow, lookAtWorkOrder, takeWorkOrderInHand, type WorkOrderInHand } from '../data/in-hand.js';
import { workOrderResponse } from '../data/work-order.mapping.js';
import type { CheckWorkOrderRequest } from '../dto/work-order.request.js';
import type { WorkOrderResponse } from '../dto/work-order.response.js';

/**
 * Somebody looks at finished work. Four eyes see more than two: whoever finished it or was on the clock on it may
 * check it only with a note that says why nobody else did. Work that does not pass goes back to its holder.
 */
export async function checkWorkOrder(
  tx: Tx,
  workOrderId: string,
  { passed, note }: CheckWorkOrderRequest,
): Promise<Result<WorkOrderResponse>> {
  const inHand = await takeWorkOrderInHand(tx, workOrderId);
  if (!inHand.ok) return inHand;
  const allowed = allow(inHand.value, passed ? 'check' : 'send-back');
  if (!allowed.ok) return allowed;
  const isOwn = await worksOnIt(tx, inHand.value);
  if (note == null && !passed) return noteNeeded('Say what is not right, so that it can be put right.');
  if (note == null && isOwn)
    return noteNeeded('This is your own work. Let somebody else check it, or say why you check it yourself.');
  await (passed ? pass(tx, workOrderId, note ?? null) : sendBack(tx, workOrderId, note ?? null));
  await tx.audit(passed ? 'work-order.check' : 'work-order.send-back', 'work-order', workOrderId, {
    note: note ?? null,
    isOwnWork: isOwn,
    finishedBy: inHand.value.row.finishedBy,
  });
  tx.announce('work-order', { workOrderId, repairOrderId: inHand.value.row.repairOrderId });
  const after = await lookAtWorkOrder(tx, workOrderId);
  return after.ok ? ok(workOrderResponse(after.value)) : after;
}

async function pass(tx: Tx, workOrderId: string, note: string | null): Promise<void> {
  await tx.em.query(
    `update work_orders set checked_at = $3, checked_by = $4, check_note = $5, version = version + 1
      where shop_id = $1 and id = $2`,
    [tx.shopId, workOrderId, tx.now, tx.staffId, note],
  );
}

/** The note stays on the work order, where the one who goes on with it reads it; who and when is in the audit. */
async function sendBack(tx: Tx, workOrderId: string, note: string | null): Promise<void> {
  await tx.em.query(
    `update work_orders set finished_at = null, finished_by = null, check_note = $3, version = version + 1
      where shop_id = $1 and id = $2`,
    [tx.shopId, workOrderId, note],
  );
}

async function worksOnIt(tx: Tx, { row }: WorkOrderInHand): Promise<boolean> {
  if (row.finishedBy === tx.staffId) return true;
  const entry = await tx.one(
    `select id from clock_entries
      where shop_id = $1 and work_order_id = $2 and technician_id = $3 and superseded_at is null limit 1`,
    [tx.shopId, row.id, tx.staffId],
  );
  return entry !== undefined;
}

const noteNeeded = (detail: string) =>
  fail('request-invalid', 'A note is needed here.', { fields: [{ pointer: '/note', detail }] });
