import type { Tx } from '../../../platform/database/tx.js';
import { outOfService } from '../../floor/index.js';
import type { BoardBayResponse } from '../dto/board.response.js';

/** The bays by their numbers, each with who is on the clock on work that has its place there. */
export async function boardBays(tx: Tx): Promise<BoardBayResponse[]> {
  return tx.rows<BoardBayResponse>(
    `with there as (
       select a.bay_id, e.technician_id, s.display_name, e.work_order_id
         from clock_entries e
         join assignments a on a.shop_id = e.shop_id and a.work_order_id = e.work_order_id and a.cancelled_at is null
         join staff s on s.shop_id = e.shop_id and s.id = e.technician_id
        where e.shop_id = $1 and e.ended_at is null and e.superseded_at is null)
     select b.id, b.number, b.name, b.kind, b.lift_kind as "liftKind", b.capacity_kg as "capacityKg",
            coalesce(b.out_of_service_reason, (select c.reason from bay_closures c where c.shop_id = b.shop_id
              and c.bay_id = b.id and ${outOfService('c')} @> $2::timestamptz limit 1)) as "outOfServiceReason",
            (select coalesce(jsonb_agg(jsonb_build_object('technicianId', t.technician_id, 'displayName', t.display_name,
                      'workOrderId', t.work_order_id) order by t.display_name), '[]')
               from there t where t.bay_id = b.id) as "clockedOn"
       from bays b where b.shop_id = $1 and b.is_active order by b.number`,
    [tx.shopId, tx.now],
  );
}
