import { fail, ok, type Result } from '#libs/kernel';
import { actorId } from '../../../platform/context.js';
import type { Tx } from '../../../platform/database/tx.js';
import { OdometerReadingRow } from '../data/odometer-reading.entity.js';
import { odometerReadingResponse } from '../data/vehicle.mapping.js';
import type { OdometerReadingResponse } from '../dto/vehicle.response.js';
import { odometerWentBack, type Distance, type DistanceUnit } from '../intake/odometer.js';

export interface ReadOdometer extends Distance {
  readonly vehicleId: string;
  readonly occasion: 'drop-off' | 'pick-up' | 'other';
  readonly repairOrderId?: string;
  /** Somebody looked again: the odometer really reads less (exchanged, repaired, tampered with). */
  readonly confirmed?: boolean;
  /** When it was read, for history brought in from elsewhere; now unless given. */
  readonly readAt?: Date;
  /** Where the reading stands in the request, for the fault. */
  readonly pointer?: string;
}

/** Readings are only ever added. One that is lower than the one before it needs a second look, and leaves a trace. */
export async function recordOdometer(tx: Tx, read: ReadOdometer): Promise<Result<OdometerReadingResponse>> {
  const vehicle = await tx.one('select 1 from vehicles where shop_id = $1 and id = $2 for update', [
    tx.shopId,
    read.vehicleId,
  ]);
  if (!vehicle) return fail('not-found', 'There is no such vehicle in this shop.');
  const readAt = read.readAt ?? tx.now;
  const before = await tx.one<{ reading: number; unit: DistanceUnit }>(
    `select reading, unit from odometer_readings
      where shop_id = $1 and vehicle_id = $2 and read_at <= $3 order by read_at desc, id desc limit 1`,
    [tx.shopId, read.vehicleId, readAt],
  );
  const wentBack = before !== undefined && odometerWentBack(before, read);
  if (wentBack && read.confirmed !== true) return wentBackFault(before, read);
  const row = tx.em.create(OdometerReadingRow, {
    shopId: tx.shopId,
    id: tx.newId(),
    vehicleId: read.vehicleId,
    reading: read.reading,
    unit: read.unit,
    readAt,
    occasion: read.occasion,
    repairOrderId: read.repairOrderId ?? null,
    recordedBy: actorId(tx.actor),
  });
  await tx.em.insert(OdometerReadingRow, row);
  if (wentBack)
    await tx.audit('vehicle.odometer-went-back', 'vehicle', read.vehicleId, {
      from: `${before.reading} ${before.unit}`,
      to: `${read.reading} ${read.unit}`,
    });
  return ok(odometerReadingResponse(row));
}

function wentBackFault(before: Distance, read: ReadOdometer): Result<never> {
  const detail =
    `The last reading was ${before.reading} ${before.unit}, this one is ${read.reading} ${read.unit}. ` +
    'Look again; if it is right, send it with confirmed.';
  return fail('odometer-went-back', detail, {
    fields: [{ pointer: read.pointer ?? '/reading', detail }],
    facts: { lastReading: before.reading, lastUnit: before.unit },
  });
}
