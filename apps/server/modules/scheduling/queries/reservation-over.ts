/** The real work of reservation `r` is on the floor, or its car has been picked up. `$1` is the shop. */
export const RESERVATION_IS_USED = `(r.repair_order_id is not null and (
  exists (select 1 from work_orders done
           where done.shop_id = $1 and done.repair_order_id = r.repair_order_id and done.withdrawn_at is null)
  or exists (select 1 from repair_orders gone
              where gone.shop_id = $1 and gone.id = r.repair_order_id and gone.picked_up_at is not null)))`;

/** Nobody took it in time, or its car did not come on its day. `$2` is the time. */
export const RESERVATION_RAN_OUT = `(coalesce(r.expires_at <= $2, false)
  or (r.repair_order_id is null and coalesce(r.lapses_at <= $2, false)))`;

/** It keeps no place, whether or not anybody has given its places back yet. */
export const RESERVATION_IS_OVER = `(r.released_at is not null or ${RESERVATION_RAN_OUT} or ${RESERVATION_IS_USED})`;

/** The place `a` belongs to a reservation that is over. */
export const RESERVED_PLACE_IS_OVER = `exists (
  select 1 from reservation_operations kept
    join reservations r on r.shop_id = $1 and r.id = kept.reservation_id
   where kept.shop_id = $1 and kept.id = a.reservation_operation_id and ${RESERVATION_IS_OVER})`;
