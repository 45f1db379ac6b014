import type { Tx } from '../../../platform/database/tx.js';

/** Work of a reservation for which no place is kept: the offer moves others for it, or it lost its place. */
export async function workWithoutPlace(tx: Tx, reservationId: string): Promise<string[]> {
  const rows = await tx.rows<{ id: string }>(
    `select o.id from reservation_operations o
      where o.shop_id = $1 and o.reservation_id = $2
        and not exists (select 1 from assignments a where a.shop_id = $1 and a.reservation_operation_id = o.id
                           and a.cancelled_at is null)
      order by o.sequence`,
    [tx.shopId, reservationId],
  );
  return rows.map(({ id }) => id);
}
