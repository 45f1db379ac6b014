import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { OdometerReadingRow } from '../data/odometer-reading.entity.js';
import { VehicleRow } from '../data/vehicle.entity.js';
import { odometerReadingResponse, vehicleResponse } from '../data/vehicle.mapping.js';
import type { OwnershipResponse, VehicleDetailResponse, VehicleResponse } from '../dto/vehicle.response.js';

export async function ownerName(tx: Tx, customerId: string): Promise<string> {
  const row = await tx.one<{ name: string }>(
    'select display_name as name from customers where shop_id = $1 and id = $2',
    [tx.shopId, customerId],
  );
  return row?.name ?? '';
}

async function find(tx: Tx, vehicleId: string): Promise<VehicleRow | null> {
  return tx.em.findOneBy(VehicleRow, { shopId: tx.shopId, id: vehicleId });
}

/** For the other modules: the vehicle as it is known now. */
export async function vehicleOf(tx: Tx, vehicleId: string): Promise<Result<VehicleResponse>> {
  const row = await find(tx, vehicleId);
  if (!row) return fail('not-found', 'There is no such vehicle in this shop.');
  return ok(vehicleResponse(row, await ownerName(tx, row.customerId)));
}

export async function vehicleById(tx: Tx, vehicleId: string): Promise<Result<VehicleDetailResponse>> {
  const row = await find(tx, vehicleId);
  if (!row) return fail('not-found', 'There is no such vehicle in this shop.');
  return ok(await vehicleDetail(tx, row, await ownerName(tx, row.customerId)));
}

export async function vehicleDetail(tx: Tx, row: VehicleRow, owner: string): Promise<VehicleDetailResponse> {
  const last = await tx.em.findOne(OdometerReadingRow, {
    where: { shopId: tx.shopId, vehicleId: row.id },
    order: { readAt: 'DESC', id: 'DESC' },
  });
  const ownerships = await tx.rows<Omit<OwnershipResponse, 'since'> & { since: Date }>(
    `select o.customer_id as "customerId", c.display_name as "displayName", o.since from ownerships o
       join customers c on c.shop_id = o.shop_id and c.id = o.customer_id
      where o.shop_id = $1 and o.vehicle_id = $2 order by o.since desc, o.id desc limit 50`,
    [tx.shopId, row.id],
  );
  return {
    ...vehicleResponse(row, owner),
    odometer: last && odometerReadingResponse(last),
    ownerships: ownerships.map((o) => ({ ...o, since: o.since.toISOString() })),
  };
}
