import { fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { openStay } from '../../repair-orders/index.js';
import { takeReservationInHand } from '../data/reservation-in-hand.js';
import { ReservationRow } from '../data/reservation.entity.js';
import type { ReservationResponse } from '../dto/reservation.response.js';
import { reservationById } from '../queries/reservations.query.js';

/**
 * The car has come: its repair order is the one that the place was kept for. The places stay until its real work is
 * released and takes them over, so that nobody else gets them in between.
 */
export async function useReservation(
  tx: Tx,
  reservationId: string,
  repairOrderId: string,
): Promise<Result<ReservationResponse>> {
  const inHand = await takeReservationInHand(tx, reservationId);
  if (!inHand.ok) return inHand;
  const { row, state } = inHand.value;
  if (state === 'held')
    return fail('reservation-state', 'It is only held. Take it first: say who comes and what was promised.', {
      facts: { state },
    });
  if (row.repairOrderId !== null && row.repairOrderId !== repairOrderId)
    return fail('reservation-state', 'It was used for another repair order already.', {
      facts: { repairOrderId: row.repairOrderId },
    });
  const stay = await openStay(tx, repairOrderId);
  if (!stay.ok) return stay;
  if (row.vehicleId !== null && row.vehicleId !== stay.value.vehicleId)
    return fail(
      'reservation-for-another-vehicle',
      'This repair order is for another vehicle than the reservation. Choose the right one, or give the reservation back.',
      { facts: { vehicleId: row.vehicleId } },
    );
  if (row.repairOrderId === null) {
    const { vehicleId, customerId } = stay.value;
    await tx.em.update(
      ReservationRow,
      { shopId: tx.shopId, id: reservationId },
      { repairOrderId, vehicleId, customerId: row.customerId ?? customerId, version: row.version + 1 },
    );
    await tx.audit('reservation.use', 'reservation', reservationId, { repairOrderId });
    tx.announce('reservation', { reservationId, repairOrderId });
  }
  return reservationById(tx, reservationId);
}
