import { fail, ok, type Result } from '#libs/kernel';
import { actorId } from '../../../platform/context.js';
import type { Tx } from '../../../platform/database/tx.js';
import { CustomerRow } from '../data/customer.entity.js';
import { OwnershipRow } from '../data/ownership.entity.js';
import { VehicleRow } from '../data/vehicle.entity.js';
import type { AddVehicleRequest } from '../dto/vehicle.request.js';
import type { VehicleDetailResponse } from '../dto/vehicle.response.js';
import { keepVin } from '../intake/vin.js';
import { vehicleDetail } from '../queries/vehicle.query.js';
import { vehicleSearchText } from '../search/search-text.js';
import { recordOdometer } from './record-odometer.js';
import { vinIsFree } from './vin-is-free.js';

export async function addVehicle(tx: Tx, request: AddVehicleRequest): Promise<Result<VehicleDetailResponse>> {
  const owner = await tx.em.findOneBy(CustomerRow, { shopId: tx.shopId, id: request.customerId });
  if (!owner) return fail('not-found', 'There is no such customer in this shop.');
  const kept = keepVin(request.vin ?? null, request.modelYear ?? null, request.vinAccepted === true);
  if (!kept.ok) return kept;
  const free = await vinIsFree(tx, kept.value.vin);
  if (!free.ok) return free;

  const facts = {
    plate: request.plate ?? null,
    ...kept.value,
    make: request.make,
    model: request.model,
    modelYear: request.modelYear ?? null,
    colour: request.colour ?? null,
  };
  const row = tx.em.create(VehicleRow, {
    ...facts,
    shopId: tx.shopId,
    id: tx.newId(),
    customerId: owner.id,
    drivetrain: request.drivetrain ?? 'combustion',
    weightKg: request.weightKg ?? null,
    heightMm: request.heightMm ?? null,
    valueCents: request.valueCents ?? null,
    note: request.note ?? null,
    searchText: vehicleSearchText(facts, owner.displayName),
    version: 1,
    createdAt: tx.now,
  });
  await tx.em.insert(VehicleRow, row);
  await tx.em.insert(OwnershipRow, {
    shopId: tx.shopId,
    id: tx.newId(),
    vehicleId: row.id,
    customerId: owner.id,
    since: tx.now,
    recordedBy: actorId(tx.actor),
  });
  await tx.audit('vehicle.add', 'vehicle', row.id, { vinVerdict: row.vinVerdict });
  if (request.odometer) {
    const read = await recordOdometer(tx, { vehicleId: row.id, ...request.odometer, occasion: 'other' });
    if (!read.ok) return read;
  }
  return ok(await vehicleDetail(tx, row, owner.displayName));
}
