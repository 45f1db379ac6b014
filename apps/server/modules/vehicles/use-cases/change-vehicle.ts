import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { VehicleRow } from '../data/vehicle.entity.js';
import type { ChangeVehicleRequest } from '../dto/vehicle.request.js';
import type { VehicleDetailResponse } from '../dto/vehicle.response.js';
import { keepVin, type KeptVin } from '../intake/vin.js';
import { ownerName, vehicleDetail } from '../queries/vehicle.query.js';
import { vehicleSearchText } from '../search/search-text.js';
import { vinIsFree } from './vin-is-free.js';

export async function changeVehicle(
  tx: Tx,
  vehicleId: string,
  version: number | '*',
  request: ChangeVehicleRequest,
): Promise<Result<VehicleDetailResponse>> {
  const key = { shopId: tx.shopId, id: vehicleId };
  const row = await tx.em.findOne(VehicleRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such vehicle in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const vin = vinAfter(row, request);
  if (!vin.ok) return vin;
  const free = await vinIsFree(tx, vin.value.vin, vehicleId);
  if (!free.ok) return free;

  const told = definedOnly({ ...request, vinAccepted: undefined, ...vin.value });
  const changed: VehicleRow = { ...row, ...told, version: row.version + 1 };
  const owner = await ownerName(tx, row.customerId);
  changed.searchText = vehicleSearchText(changed, owner);
  await tx.em.update(VehicleRow, key, changed);
  await tx.audit('vehicle.change', 'vehicle', vehicleId, told);
  return ok(await vehicleDetail(tx, changed, owner));
}

/** The model year decides how a VIN is read, so a new year looks at the VIN again; what was kept once stays kept. */
function vinAfter(row: VehicleRow, request: ChangeVehicleRequest): Result<KeptVin> {
  const isSame = request.vin === undefined || request.vin === row.vin;
  if (isSame && request.modelYear === undefined) return ok({ vin: row.vin, vinVerdict: row.vinVerdict });
  const modelYear = request.modelYear === undefined ? row.modelYear : request.modelYear;
  const wasKept = isSame && row.vinVerdict === 'reject';
  return keepVin(
    isSame ? row.vin : (request.vin ?? null),
    modelYear,
    wasKept || request.vinAccepted === true,
  );
}
