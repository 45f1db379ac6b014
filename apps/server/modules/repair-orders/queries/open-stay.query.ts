import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { closedFault } from './closed-fault.js';

export interface OpenStay {
  readonly repairOrderId: string;
  readonly vehicleId: string;
  readonly customerId: string;
  readonly odometerUnit: 'km' | 'mi';
}

/**
 * For everything that adds to a stay: the vehicle must still be here, and a pick-up that is going on waits until this
 * transaction ends (its FOR UPDATE meets our FOR KEY SHARE). Faults: `not-found`, `repair-order-closed`.
 */
export async function openStay(tx: Tx, repairOrderId: string): Promise<Result<OpenStay>> {
  const row = await tx.one<OpenStay & { pickedUpAt: Date | null }>(
    `select id as "repairOrderId", vehicle_id as "vehicleId", customer_id as "customerId",
        odometer_unit as "odometerUnit", picked_up_at as "pickedUpAt"
       from repair_orders where shop_id = $1 and id = $2 for key share`,
    [tx.shopId, repairOrderId],
  );
  if (!row) return fail('not-found', 'There is no such repair order in this shop.');
  const { pickedUpAt, ...stay } = row;
  return pickedUpAt ? closedFault(pickedUpAt) : ok(stay);
}
