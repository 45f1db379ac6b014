import type { Tx } from '../../../platform/database/tx.js';
import { RESERVATION_IS_USED, RESERVATION_RAN_OUT } from '../queries/reservation-over.js';

/** Reservations whose repair order has its real work on the floor: of one repair order, of all, or left alone. */
export type UsedBy = { readonly repairOrderId: string } | 'any' | 'none';

/**
 * Ends reservations whose time is over and gives their places back: those that nobody took in time, those whose car did
 * not come on its day, and, where asked, those whose real work takes their place. Whoever is about to give out places
 * calls this first, so that no place is kept from anybody because a clock did not run. One that somebody is just taking
 * is left to them.
 */
export async function freeReservedPlaces(tx: Tx, usedBy: UsedBy): Promise<void> {
  const over = await tx.rows<{ id: string; reason: string }>(
    `with over as (
       select r.id, case when ${RESERVATION_IS_USED} then 'used' when r.taken_at is null then 'expired' else 'not-come' end as reason
         from reservations r
        where r.shop_id = $1 and r.released_at is null
          and (${RESERVATION_RAN_OUT}
               or ($3 and ($4::uuid is null or r.repair_order_id = $4) and ${RESERVATION_IS_USED}))
        order by r.id for update skip locked)
     update reservations r set released_at = $2, release_reason = over.reason, version = r.version + 1
       from over where r.shop_id = $1 and r.id = over.id returning r.id, over.reason`,
    [tx.shopId, tx.now, usedBy !== 'none', typeof usedBy === 'string' ? null : usedBy.repairOrderId],
  );
  for (const { id, reason } of over) {
    await freePlacesOf(tx, id);
    await tx.audit('reservation.end', 'reservation', id, { reason });
  }
}

/** The reservation keeps no place any more. */
export async function freePlacesOf(tx: Tx, reservationId: string): Promise<void> {
  const freed = await tx.rows<{ id: string }>(
    `update assignments a set cancelled_at = $3, version = a.version + 1
       from reservation_operations o
      where a.shop_id = $1 and o.shop_id = $1 and o.reservation_id = $2 and a.reservation_operation_id = o.id
        and a.cancelled_at is null returning a.id`,
    [tx.shopId, reservationId, tx.now],
  );
  await tx.em.query(
    `update assignment_tools set cancelled_at = $3
      where shop_id = $1 and assignment_id = any ($2) and cancelled_at is null`,
    [tx.shopId, freed.map(({ id }) => id), tx.now],
  );
  tx.announce('reservation', { reservationId });
}
