import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';

/** One vehicle, one VIN: says which vehicle has it, so that the desk goes on with that one. */
export async function vinIsFree(tx: Tx, vin: string | null, exceptVehicleId?: string): Promise<Result<void>> {
  if (vin === null) return ok(undefined);
  const taken = await tx.one<{ id: string; owner: string }>(
    `select v.id, c.display_name as owner from vehicles v
       join customers c on c.shop_id = v.shop_id and c.id = v.customer_id
      where v.shop_id = $1 and v.vin = $2 and ($3::uuid is null or v.id <> $3)`,
    [tx.shopId, vin, exceptVehicleId ?? null],
  );
  if (!taken) return ok(undefined);
  return fail('vin-taken', `The vehicle of ${taken.owner} has this VIN. Open that vehicle instead.`, {
    facts: { vehicleId: taken.id },
    fields: [{ pointer: '/vin', detail: 'Another vehicle of this shop has this VIN.' }],
  });
}
