import type { Tx } from '../../../platform/database/tx.js';
import type { WorkOrderInHand } from '../../work-orders/index.js';
import type { Place } from '../queries/conflicts.query.js';

/**
 * Where the vehicle waits in the bay already, apart, its own work may be put between: the waiting ends with the start of
 * this work and goes on after it. Answers with the end of the waiting after this work; null when there is none.
 */
export async function cutOwnHold(
  tx: Tx,
  { row }: WorkOrderInHand,
  place: Place,
  assignmentId: string | null,
): Promise<Date | null> {
  const cut = await tx.rows<{ until: Date }>(
    `update assignments a set bay_until = case when $5 > a.ends_at then $5::timestamptz end
       from (select o.id, o.bay_until from assignments o
               join work_orders w on w.shop_id = o.shop_id and w.id = o.work_order_id
              where o.shop_id = $1 and w.repair_order_id = $2 and o.bay_id = $3 and o.cancelled_at is null
                and o.id is distinct from $4 and o.bay_until > $5 and o.ends_at <= $5) was
      where a.shop_id = $1 and a.id = was.id returning was.bay_until as until`,
    [tx.shopId, row.repairOrderId, place.bayId, assignmentId, place.startsAt],
  );
  return cut.find(({ until }) => until > place.endsAt)?.until ?? null;
}

/** The vehicle leaves the bay with the work that it waited there for. */
export async function endOwnHold(tx: Tx, { row }: WorkOrderInHand, from: Place): Promise<void> {
  await tx.em.query(
    `update assignments a set bay_until = null
      where a.shop_id = $1 and a.bay_id = $3 and a.bay_until = $4 and a.cancelled_at is null
        and exists (select 1 from work_orders w
                     where w.shop_id = $1 and w.id = a.work_order_id and w.repair_order_id = $2)`,
    [tx.shopId, row.repairOrderId, from.bayId, from.startsAt],
  );
}
