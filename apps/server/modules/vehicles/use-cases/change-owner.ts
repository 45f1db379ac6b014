import { fail, ok, type Result } from '#libs/kernel';
import { actorId } from '../../../platform/context.js';
import type { Tx } from '../../../platform/database/tx.js';
import { CustomerRow } from '../data/customer.entity.js';
import { OwnershipRow } from '../data/ownership.entity.js';
import { VehicleRow } from '../data/vehicle.entity.js';
import type { VehicleDetailResponse } from '../dto/vehicle.response.js';
import { vehicleDetail } from '../queries/vehicle.query.js';
import { vehicleSearchText } from '../search/search-text.js';

/** The vehicle goes on with its history under another customer; repair orders keep the customer they were opened for. */
export async function changeOwner(
  tx: Tx,
  vehicleId: string,
  customerId: string,
): Promise<Result<VehicleDetailResponse>> {
  const key = { shopId: tx.shopId, id: vehicleId };
  const row = await tx.em.findOne(VehicleRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such vehicle in this shop.');
  const owner = await tx.em.findOneBy(CustomerRow, { shopId: tx.shopId, id: customerId });
  if (!owner) return fail('not-found', 'There is no such customer in this shop.');
  if (owner.id === row.customerId)
    return fail('request-invalid', 'The vehicle belongs to this customer already.', {
      fields: [{ pointer: '/customerId', detail: 'Choose another customer.' }],
    });
  const changed: VehicleRow = {
    ...row,
    customerId: owner.id,
    searchText: vehicleSearchText(row, owner.displayName),
    version: row.version + 1,
  };
  await tx.em.update(VehicleRow, key, changed);
  await tx.em.insert(OwnershipRow, {
    shopId: tx.shopId,
    id: tx.newId(),
    vehicleId,
    customerId: owner.id,
    since: tx.now,
    recordedBy: actorId(tx.actor),
  });
  await tx.audit('vehicle.change-owner', 'vehicle', vehicleId, { from: row.customerId, to: owner.id });
  return ok(await vehicleDetail(tx, changed, owner.displayName));
}
