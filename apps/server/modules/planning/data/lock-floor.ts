import type { Tx } from '../../../platform/database/tx.js';

/**
 * Nothing of the floor that a plan is written on changes until the end of the transaction: these work orders, and all
 * bays, technicians and tools, in the order in which everybody locks them. Whoever gives a place by hand waits for it and
 * then sees what was written; others may go on naming these rows.
 */
export async function lockFloor(tx: Tx, workOrderIds: readonly string[]): Promise<void> {
  await tx.rows(`select id from work_orders where shop_id = $1 and id = any ($2) order by id for update`, [
    tx.shopId,
    workOrderIds,
  ]);
  for (const rows of ['bays where', `staff where 'technician' = any (roles) and`, 'special_tools where'])
    await tx.rows(`select id from ${rows} shop_id = $1 order by id for no key update`, [tx.shopId]);
}

/** Work orders that have a place, and these. */
export async function workOrdersWithPlaces(tx: Tx, more: readonly string[]): Promise<string[]> {
  const rows = await tx.rows<{ id: string }>(
    `select work_order_id as id from assignments
      where shop_id = $1 and cancelled_at is null and work_order_id is not null
        and work_order_id in (select w.id from work_orders w where w.shop_id = $1 and w.checked_at is null
                                 and w.withdrawn_at is null)`,
    [tx.shopId],
  );
  return [...new Set([...rows.map(({ id }) => id), ...more])];
}
