import type { Tx } from '../../../platform/database/tx.js';

/**
 * Takes the vehicle's row: two people at two desks who take the same car in come one after the other, and the second is
 * told the number of the first.
 */
export async function lockVehicle(
  tx: Tx,
  vehicleId: string,
): Promise<{ customerId: string; openNumber: number | null; openId: string | null } | undefined> {
  const vehicle = await tx.one<{ customerId: string }>(
    `select customer_id as "customerId" from vehicles where shop_id = $1 and id = $2 for no key update`,
    [tx.shopId, vehicleId],
  );
  if (!vehicle) return undefined;
  const open = await tx.one<{ id: string; number: number }>(
    'select id, number from repair_orders where shop_id = $1 and vehicle_id = $2 and picked_up_at is null',
    [tx.shopId, vehicleId],
  );
  return { ...vehicle, openNumber: open?.number ?? null, openId: open?.id ?? null };
}

export async function customerExists(tx: Tx, customerId: string): Promise<boolean> {
  const row = await tx.one('select id from customers where shop_id = $1 and id = $2', [
    tx.shopId,
    customerId,
  ]);
  return row !== undefined;
}
