import { DateTime } from 'luxon';
import type { Tx } from '../../../platform/database/tx.js';
import { RESERVATION_IS_OVER } from '../../scheduling/index.js';
import type { ReservedPlaceResponse } from '../dto/board.response.js';

interface Row extends Omit<ReservedPlaceResponse, 'startsAt' | 'endsAt' | 'until' | 'state' | 'words'> {
  readonly startsAt: Date;
  readonly endsAt: Date;
  readonly until: Date | null;
  readonly by: string;
  readonly customer: string | null;
  readonly vehicle: string | null;
}

/** Places on a day of the shop that are kept for cars that may come, in words: nobody works there yet. */
export async function reservedPlaces(tx: Tx, day: DateTime): Promise<ReservedPlaceResponse[]> {
  const rows = await tx.rows<Row>(
    `select r.id as "reservationId", r.number as "reservationNumber", o.title, a.bay_id as "bayId",
            a.technician_id as "technicianId", t.display_name as "technicianName", a.starts_at as "startsAt",
            a.ends_at as "endsAt", r.expires_at as until, maker.display_name as by,
            coalesce(r.customer_name, c.display_name) as customer,
            coalesce(r.vehicle_words, nullif(concat_ws(' ', v.make, v.model, v.model_year), '')) as vehicle
       from assignments a
       join reservation_operations o on o.shop_id = $1 and o.id = a.reservation_operation_id
       join reservations r on r.shop_id = $1 and r.id = o.reservation_id
       join staff t on t.shop_id = $1 and t.id = a.technician_id
       join staff maker on maker.shop_id = $1 and maker.id = r.made_by
       left join customers c on c.shop_id = $1 and c.id = r.customer_id
       left join vehicles v on v.shop_id = $1 and v.id = r.vehicle_id
      where a.shop_id = $1 and a.cancelled_at is null and tstzrange(a.starts_at, a.ends_at) && tstzrange($3, $4)
        and not ${RESERVATION_IS_OVER}
      order by a.starts_at, a.id`,
    [tx.shopId, tx.now, day.toJSDate(), day.plus({ days: 1 }).startOf('day').toJSDate()],
  );
  return rows.map(({ by, customer, vehicle, ...row }) => ({
    ...row,
    state: row.until === null ? 'taken' : 'held',
    startsAt: row.startsAt.toISOString(),
    endsAt: row.endsAt.toISOString(),
    until: row.until?.toISOString() ?? null,
    words: `${keptWords({ ...row, by, customer, vehicle }, day.zoneName ?? 'utc')}: ${row.title}`,
  }));
}

function keptWords({ until, by, customer, vehicle }: Row, zone: string): string {
  if (until !== null)
    return `Reserved until ${DateTime.fromJSDate(until, { zone }).toFormat('HH:mm')} by ${by}`;
  const whom = [customer, vehicle].filter((one) => one !== null);
  return `Kept for ${whom.join(', ')}`;
}
