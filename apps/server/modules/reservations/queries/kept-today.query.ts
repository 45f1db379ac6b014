import type { Tx } from '../../../platform/database/tx.js';

/**
 * What is kept today for a vehicle, or, where the reservation names no vehicle, for its customer: taken, not over and not
 * used. Null also where there are several, because then somebody has to say which.
 */
export async function keptToday(tx: Tx, vehicleId: string, customerId: string): Promise<string | null> {
  const rows = await tx.rows<{ id: string }>(
    `select r.id from reservations r join shops s on s.shop_id = r.shop_id
      where r.shop_id = $1 and r.released_at is null and r.taken_at is not null and r.repair_order_id is null
        and r.lapses_at > $2
        and (r.arrives_at at time zone s.time_zone)::date <= ($2::timestamptz at time zone s.time_zone)::date
        and (r.vehicle_id = $3 or (r.vehicle_id is null and r.customer_id = $4))
      limit 2`,
    [tx.shopId, tx.now, vehicleId, customerId],
  );
  return rows.length === 1 ? (rows[0]?.id ?? null) : null;
}
