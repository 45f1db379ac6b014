import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { cancelPlace } from '../data/place.js';
import { workBegunOnLines } from './work-begun-on-lines.js';

/**
 * Takes the line's work order off the floor because the owner changed their mind. Refused once work has begun. A line
 * without an open work order has nothing to take off.
 */
export async function withdrawWorkOrder(tx: Tx, lineId: string): Promise<Result<void>> {
  const begun = await workBegunOnLines(tx, [lineId]);
  if (begun.has(lineId))
    return fail('work-already-begun', 'Work on this line has begun, so it cannot be taken off the floor.');
  const gone = await tx.one<{ id: string; repairOrderId: string }>(
    `update work_orders set withdrawn_at = $3, version = version + 1
      where shop_id = $1 and line_id = $2 and withdrawn_at is null
      returning id, repair_order_id as "repairOrderId"`,
    [tx.shopId, lineId, tx.now],
  );
  if (!gone) return ok(undefined);
  await tx.em.query(
    `update claims set released_at = $3, release_reason = 'withdrawn'
      where shop_id = $1 and work_order_id = $2 and released_at is null`,
    [tx.shopId, gone.id, tx.now],
  );
  await cancelPlace(tx, gone.id);
  await tx.audit('work-order.withdraw', 'work-order', gone.id, { lineId });
  tx.announce('work-order', { workOrderId: gone.id, repairOrderId: gone.repairOrderId });
  return ok(undefined);
}
