import { fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { openStay } from '../../repair-orders/index.js';
import { markUsed, onlyForVehicle, onlyTaken, takeReservationInHand } from '../data/reservation-in-hand.js';
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
  const { row } = inHand.value;
  const taken = onlyTaken(inHand.value);
  if (!taken.ok) return taken;
  if (row.repairOrderId !== null && row.repairOrderId !== repairOrderId)
    return fail('reservation-state', 'It was used for another repair order already.', {
      facts: { repairOrderId: row.repairOrderId },
    });
  const stay = await openStay(tx, repairOrderId);
  if (!stay.ok) return stay;
  const fits = onlyForVehicle(row, stay.value.vehicleId);
  if (!fits.ok) return fits;
  if (row.repairOrderId === null) await markUsed(tx, row, stay.value);
  return reservationById(tx, reservationId);
}
