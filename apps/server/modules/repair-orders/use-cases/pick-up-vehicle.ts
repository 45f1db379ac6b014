import { fail, type Failed, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { recordOdometer } from '../../vehicles/index.js';
import { RepairOrderRow } from '../data/repair-order.entity.js';
import type { OdometerEntry, PickUpRequest } from '../dto/repair-order.request.js';
import type { RepairOrderResponse } from '../dto/repair-order.response.js';
import { drivingWarnings } from '../queries/driving-warnings.query.js';
import { repairOrderById } from '../queries/repair-order.query.js';
import { unfinishedWork } from '../queries/unfinished-work.query.js';
import { closedFault } from '../queries/closed-fault.js';
import { lockRepairOrder } from './lock-repair-order.js';

/**
 * The car leaves. Agreed work must be finished and checked, or withdrawn. A car that is marked unsafe may be fetched
 * (it is the owner's, and may leave on a trailer), but the answer and the audit repeat the warning.
 */
export async function pickUpVehicle(
  tx: Tx,
  repairOrderId: string,
  request: PickUpRequest,
): Promise<Result<RepairOrderResponse>> {
  const row = await lockRepairOrder(tx, repairOrderId);
  if (!row) return fail('not-found', 'There is no such repair order in this shop.');
  if (row.pickedUpAt) return closedFault(row.pickedUpAt);
  const wrong = odometerFault(row, request.odometer);
  if (wrong) return wrong;
  const open = await unfinishedWork(tx, repairOrderId);
  if (open.length > 0) {
    return fail(
      'repair-order-not-ready',
      `Finish and check first, or withdraw: ${open.map((w) => `${w.number} ${w.title}`).join('; ')}.`,
      { facts: { workOrders: open } },
    );
  }
  const recorded = await recordOdometer(tx, {
    vehicleId: row.vehicleId,
    reading: request.odometer.reading,
    unit: request.odometer.unit,
    occasion: 'pick-up',
    repairOrderId,
    confirmed: request.odometer.confirmed ?? false,
    pointer: '/odometer/reading',
  });
  if (!recorded.ok) return recorded;
  await tx.em.update(
    RepairOrderRow,
    { shopId: tx.shopId, id: repairOrderId },
    { odometerOut: request.odometer.reading, pickedUpAt: tx.now, version: row.version + 1 },
  );
  const warnings = await drivingWarnings(tx, repairOrderId);
  await tx.audit('repair-order.pick-up', 'repair-order', repairOrderId, {
    odometerOut: request.odometer.reading,
    warned: warnings.map(({ warning }) => warning),
  });
  tx.announce('repair-order', { repairOrderId });
  return repairOrderById(tx, repairOrderId);
}

function odometerFault(row: RepairOrderRow, { reading, unit }: OdometerEntry): Failed | undefined {
  if (unit !== row.odometerUnit) {
    return fail('request-invalid', `This stay is written in ${row.odometerUnit}.`, {
      fields: [{ pointer: '/odometer/unit', detail: `Read it in ${row.odometerUnit}, as at the drop-off.` }],
    });
  }
  if (reading >= row.odometerIn) return undefined;
  return fail(
    'odometer-went-back',
    `The odometer read ${row.odometerIn} ${unit} at the drop-off, so it cannot read less now.`,
    {
      fields: [{ pointer: '/odometer/reading', detail: `Give ${row.odometerIn} or more.` }],
      facts: { earlier: row.odometerIn },
    },
  );
}
