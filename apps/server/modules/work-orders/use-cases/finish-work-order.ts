import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { allow, lookAtWorkOrder, takeWorkOrderInHand } from '../data/in-hand.js';
import { freeRestOfPlace } from '../data/place.js';
import { workOrderResponse } from '../data/work-order.mapping.js';
import type { WorkOrderResponse } from '../dto/work-order.response.js';
import { mayManage } from './give-back-claim.js';

/** The holder (or a manager) says that the work is done. The clock stops with it, and what is left of its place is free. */
export async function finishWorkOrder(tx: Tx, workOrderId: string): Promise<Result<WorkOrderResponse>> {
  const inHand = await takeWorkOrderInHand(tx, workOrderId);
  if (!inHand.ok) return inHand;
  const allowed = allow(inHand.value, 'finish');
  if (!allowed.ok) return allowed;
  const { claim, repairOrderId } = inHand.value.row;
  if (claim?.technicianId !== tx.staffId && !mayManage(tx))
    return fail('work-order-not-held', 'Only the one who holds the work order, or a manager, finishes it.', {
      facts: claim ? { holder: { id: claim.technicianId, displayName: claim.displayName } } : {},
    });
  await endOpenEntries(tx, workOrderId);
  await tx.em.query(
    `update work_orders set finished_at = $3, finished_by = $4, version = version + 1 where shop_id = $1 and id = $2`,
    [tx.shopId, workOrderId, tx.now, tx.staffId],
  );
  await freeRestOfPlace(tx, workOrderId);
  await tx.audit('work-order.finish', 'work-order', workOrderId, { holder: claim?.technicianId ?? null });
  tx.announce('work-order', { workOrderId, repairOrderId });
  const after = await lookAtWorkOrder(tx, workOrderId);
  return after.ok ? ok(workOrderResponse(after.value)) : after;
}

/** An entry lasts at least a millisecond, also where two taps fall into one. */
async function endOpenEntries(tx: Tx, workOrderId: string): Promise<void> {
  const ended = await tx.rows<{ id: string; technicianId: string }>(
    `update clock_entries set ended_at = greatest($3::timestamptz, started_at + interval '1 millisecond'),
            end_kind = 'finish', ended_by = $4
      where shop_id = $1 and work_order_id = $2 and ended_at is null and superseded_at is null
      returning id, technician_id as "technicianId"`,
    [tx.shopId, workOrderId, tx.now, tx.staffId],
  );
  for (const { id, technicianId } of ended)
    tx.announce('clock', { clockEntryId: id, technicianId, workOrderId });
}
