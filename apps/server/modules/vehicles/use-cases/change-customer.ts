import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { CustomerRow } from '../data/customer.entity.js';
import { customerResponse } from '../data/customer.mapping.js';
import { VehicleRow } from '../data/vehicle.entity.js';
import type { ChangeCustomerRequest } from '../dto/customer.request.js';
import type { CustomerResponse } from '../dto/customer.response.js';
import { internationalPhone } from '../intake/phone.js';
import { shopPhone } from '../queries/shop-phone.query.js';
import { customerSearchText, vehicleSearchText } from '../search/search-text.js';

export async function changeCustomer(
  tx: Tx,
  customerId: string,
  version: number | '*',
  request: ChangeCustomerRequest,
): Promise<Result<CustomerResponse>> {
  const key = { shopId: tx.shopId, id: customerId };
  const row = await tx.em.findOne(CustomerRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such customer in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const changed: CustomerRow = { ...row, ...definedOnly(request), version: row.version + 1 };
  if (changed.phone !== row.phone) changed.phoneE164 = internationalPhone(changed.phone, await shopPhone(tx));
  changed.searchText = customerSearchText(changed);
  await tx.em.update(CustomerRow, key, changed);
  if (changed.displayName !== row.displayName) await renameInVehicles(tx, changed);
  // Which fields, not what was in them: the audit is kept for ever, and this is about a private person.
  await tx.audit('customer.change', 'customer', customerId, { fields: Object.keys(definedOnly(request)) });
  return ok(customerResponse(changed));
}

/** A vehicle is found by its owner's name, so the name stands in its search text too. */
async function renameInVehicles(tx: Tx, customer: CustomerRow): Promise<void> {
  const vehicles = await tx.em.findBy(VehicleRow, { shopId: tx.shopId, customerId: customer.id });
  for (const vehicle of vehicles)
    await tx.em.update(
      VehicleRow,
      { shopId: tx.shopId, id: vehicle.id },
      { searchText: vehicleSearchText(vehicle, customer.displayName) },
    );
}
