import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { Page } from '../../../platform/http/answers.js';
import { limitOf, pageOf, type PageQuery } from '../../../platform/http/pages.js';
import type { OdometerReadingRow } from '../data/odometer-reading.entity.js';
import { odometerReadingResponse } from '../data/vehicle.mapping.js';
import type { OdometerReadingResponse } from '../dto/vehicle.response.js';
import { timeCursor } from '../search/cursors.js';

type Row = Pick<OdometerReadingRow, 'id' | 'reading' | 'unit' | 'readAt' | 'occasion' | 'repairOrderId'>;

/** Newest first. */
export async function odometerReadings(
  tx: Tx,
  vehicleId: string,
  query: PageQuery,
): Promise<Result<Page<OdometerReadingResponse>>> {
  const known = await tx.one('select 1 from vehicles where shop_id = $1 and id = $2', [tx.shopId, vehicleId]);
  if (!known) return fail('not-found', 'There is no such vehicle in this shop.');
  const after = timeCursor(query.cursor);
  const rows = await tx.rows<Row>(
    `select id, reading, unit, read_at as "readAt", occasion, repair_order_id as "repairOrderId"
       from odometer_readings
      where shop_id = $1 and vehicle_id = $2 and ($3::timestamptz is null or (read_at, id) < ($3, $4::uuid))
      order by read_at desc, id desc limit $5`,
    [tx.shopId, vehicleId, after?.at ?? null, after?.id ?? null, limitOf(query) + 1],
  );
  return ok(
    pageOf(
      rows,
      limitOf(query),
      (row) => odometerReadingResponse(row),
      (row) => [row.readAt.toISOString(), row.id],
    ),
  );
}
