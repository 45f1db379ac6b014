import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { WorkOrderPlanningResponse } from '../dto/plan-run.response.js';

interface Row {
  since: Date | null;
  byId: string | null;
  byName: string | null;
}

export async function workOrderPlanning(
  tx: Tx,
  workOrderId: string,
): Promise<Result<WorkOrderPlanningResponse>> {
  const row = await tx.one<Row>(
    `select o.left_out_at as since, s.id as "byId", s.display_name as "byName" from work_orders w
       left join plan_left_out o on o.shop_id = w.shop_id and o.work_order_id = w.id and o.lifted_at is null
       left join staff s on s.shop_id = o.shop_id and s.id = o.left_out_by
      where w.shop_id = $1 and w.id = $2`,
    [tx.shopId, workOrderId],
  );
  if (!row) return fail('not-found', 'There is no such work order in this shop.');
  const { since, byId, byName } = row;
  return ok({
    workOrderId,
    leftOut: since !== null,
    since: since?.toISOString() ?? null,
    by: byId === null ? null : { id: byId, displayName: byName ?? '' },
  });
}
