import { workOrderState, type WorkOrderFacts, type WorkOrderState } from '#libs/workflow';
import type { Tx } from '../../../platform/database/tx.js';

export interface UnfinishedWork {
  readonly workOrderId: string;
  readonly number: number;
  readonly title: string;
  readonly state: WorkOrderState;
}

/** Work orders that are neither checked nor withdrawn, by number. */
export async function unfinishedWork(tx: Tx, repairOrderId: string): Promise<UnfinishedWork[]> {
  const rows = await tx.rows<Omit<UnfinishedWork, 'state'> & WorkOrderFacts>(
    `select w.id as "workOrderId", w.number, w.title, false as withdrawn, c.id is not null as claimed,
        exists (select 1 from clock_entries e where e.shop_id = w.shop_id and e.work_order_id = w.id and e.superseded_at is null
                 and e.technician_id = c.technician_id and e.started_at >= c.claimed_at) as "clockedSinceClaim",
        exists (select 1 from clock_entries e where e.shop_id = w.shop_id and e.work_order_id = w.id and e.superseded_at is null
                 and e.ended_at is null) as "onTheClock",
        w.finished_at is not null as finished, false as checked
       from work_orders w
       left join claims c on c.shop_id = w.shop_id and c.work_order_id = w.id and c.released_at is null
      where w.shop_id = $1 and w.repair_order_id = $2 and w.withdrawn_at is null and w.checked_at is null
      order by w.number`,
    [tx.shopId, repairOrderId],
  );
  return rows.map((row) => ({
    workOrderId: row.workOrderId,
    number: row.number,
    title: row.title,
    state: workOrderState(row),
  }));
}
