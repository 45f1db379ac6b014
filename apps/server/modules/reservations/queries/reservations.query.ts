import { DateTime } from 'luxon';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { Page } from '../../../platform/http/answers.js';
import { decodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import { reservationResponse, type StoredReservation } from '../data/reservation.mapping.js';
import type { ReservationsQuery } from '../dto/reservation.request.js';
import type { ReservationResponse } from '../dto/reservation.response.js';

const SELECT = `
select r.*, maker.display_name as made_by_name, ro.number as repair_order_number, s.time_zone,
       coalesce(r.customer_name, c.display_name) as customer_said,
       coalesce(r.phone, c.phone) as phone_said,
       coalesce(r.vehicle_words, concat_ws(' ', v.make, v.model, v.model_year, v.plate)) as vehicle_said,
  (select jsonb_agg(jsonb_build_object('id', o.id, 'work', o.sequence, 'operationId', o.operation_id, 'positions', o.positions,
      'title', o.title, 'bookHundredths', o.book_hundredths, 'minutes', o.minutes, 'isKept', a.id is not null,
      'bayId', b.id, 'bayName', b.name, 'technicianId', t.id, 'technicianName', t.display_name,
      'startsAt', coalesce(a.starts_at, o.starts_at), 'endsAt', coalesce(a.ends_at, o.ends_at)) order by o.sequence)
     from reservation_operations o
     left join assignments a on a.shop_id = $1 and a.reservation_operation_id = o.id and a.cancelled_at is null
     join bays b on b.shop_id = $1 and b.id = coalesce(a.bay_id, o.bay_id)
     join staff t on t.shop_id = $1 and t.id = coalesce(a.technician_id, o.technician_id)
    where o.shop_id = $1 and o.reservation_id = r.id) as work
  from reservations r
  join shops s on s.shop_id = $1
  join staff maker on maker.shop_id = $1 and maker.id = r.made_by
  left join repair_orders ro on ro.shop_id = $1 and ro.id = r.repair_order_id
  left join customers c on c.shop_id = $1 and c.id = r.customer_id
  left join vehicles v on v.shop_id = $1 and v.id = r.vehicle_id
 where r.shop_id = $1`;

export async function reservationById(tx: Tx, reservationId: string): Promise<Result<ReservationResponse>> {
  const row = await tx.one<StoredReservation>(`${SELECT} and r.id = $2`, [tx.shopId, reservationId]);
  return row
    ? ok(reservationResponse(row, tx.now))
    : fail('not-found', 'There is no such reservation in this shop.');
}

/** In the order of their arrival. Of those that ran out and have not been ended yet none is shown. */
export async function reservations(
  tx: Tx,
  query: ReservationsQuery,
): Promise<Result<Page<ReservationResponse>>> {
  const limit = limitOf(query);
  const [arrives = null, id = null] = decodeCursor(query.cursor, 2) ?? [];
  const today = query.list === 'arriving-today' ? await dayOf(tx) : null;
  const rows = await tx.rows<StoredReservation>(
    `${SELECT} and r.released_at is null and (r.taken_at is not null or r.expires_at > $2)
        and (r.taken_at is null or r.repair_order_id is not null or r.lapses_at > $2)
        and ($3::timestamptz is null or (r.arrives_at, r.id) > ($3::timestamptz, $4::uuid))
        and ($5::timestamptz is null or (r.taken_at is not null and r.repair_order_id is null
             and r.arrives_at >= $5 and r.arrives_at < $6))
      order by r.arrives_at, r.id limit $7`,
    [tx.shopId, tx.now, arrives, id, today?.from ?? null, today?.to ?? null, limit + 1],
  );
  return ok(
    pageOf(
      rows,
      limit,
      (row) => reservationResponse(row, tx.now),
      (row) => [row.arrives_at.toISOString(), row.id],
    ),
  );
}

async function dayOf(tx: Tx): Promise<{ from: Date; to: Date }> {
  const shop = await tx.one<{ zone: string }>('select time_zone as zone from shops where shop_id = $1', [
    tx.shopId,
  ]);
  const from = DateTime.fromJSDate(tx.now, { zone: shop?.zone ?? 'utc' }).startOf('day');
  return { from: from.toJSDate(), to: from.plus({ days: 1 }).startOf('day').toJSDate() };
}
