import { fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { recordOdometer } from '../../vehicles/index.js';
import { RepairOrderRow } from '../data/repair-order.entity.js';
import type { OpenRepairOrderRequest } from '../dto/repair-order.request.js';
import type { RepairOrderResponse } from '../dto/repair-order.response.js';
import { nothingKept, type FindKept } from '../opening/kept-for-arrivals.js';
import { repairOrderById } from '../queries/repair-order.query.js';
import { customerExists, lockVehicle } from '../queries/stay.query.js';
import { promiseFault } from './promise-fault.js';

const FIRST_NUMBER = 1001;

/**
 * Takes a car in: one stay from drop-off to pick-up. A car that is here already has its repair order. What was kept for
 * it before it came goes with it, and with that the time that was promised then.
 */
export async function openRepairOrder(
  tx: Tx,
  request: OpenRepairOrderRequest,
  findKept: FindKept = nothingKept,
): Promise<Result<RepairOrderResponse>> {
  const promised = promiseFault(request.promisedAt, tx.now);
  if (promised) return promised;
  const vehicle = await lockVehicle(tx, request.vehicleId);
  if (!vehicle) return fail('not-found', 'There is no such vehicle in this shop.');
  if (vehicle.openNumber !== null) {
    return fail(
      'vehicle-already-here',
      `This vehicle is here on repair order ${vehicle.openNumber}. Go on with that one.`,
      { facts: { repairOrderId: vehicle.openId, number: vehicle.openNumber } },
    );
  }
  const customerId = request.customerId ?? vehicle.customerId;
  if (request.customerId !== undefined && !(await customerExists(tx, customerId)))
    return fail('not-found', 'There is no such customer in this shop.');
  const kept = await findKept(tx, {
    ...{ reservationId: request.reservationId, vehicleId: request.vehicleId.toLowerCase(), customerId },
  });
  if (!kept.ok) return kept;
  const row: RepairOrderRow = {
    shopId: tx.shopId,
    id: tx.newId(),
    number: await tx.nextNumber('repair-order', FIRST_NUMBER),
    vehicleId: request.vehicleId,
    customerId,
    concern: request.concern,
    odometerUnit: request.odometer.unit,
    odometerIn: request.odometer.reading,
    odometerOut: null,
    wantsPartsBack: request.wantsPartsBack,
    droppedOffAt: tx.now,
    promisedAt: promiseOf(request.promisedAt, kept.value?.promisedAt ?? null, tx.now),
    pickedUpAt: null,
    openedBy: tx.staffId,
    version: 1,
  };
  await tx.em.insert(RepairOrderRow, row);
  const recorded = await recordOdometer(tx, {
    vehicleId: row.vehicleId,
    reading: request.odometer.reading,
    unit: request.odometer.unit,
    occasion: 'drop-off',
    repairOrderId: row.id,
    confirmed: request.odometer.confirmed ?? false,
    pointer: '/odometer/reading',
  });
  if (!recorded.ok) return recorded;
  await kept.value?.handOver(row.id);
  await tx.audit('repair-order.open', 'repair-order', row.id, {
    number: row.number,
    vehicleId: row.vehicleId,
  });
  tx.announce('repair-order', { repairOrderId: row.id });
  return repairOrderById(tx, row.id);
}

/** Unless the desk says another or none, what was told on the phone, where that is still to come. */
function promiseOf(said: string | null | undefined, told: Date | null, now: Date): Date | null {
  if (said === undefined) return told !== null && told > now ? told : null;
  return said === null ? null : new Date(said);
}
