import { fail, ok, type Fault, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { Arrival, KeptForArrival } from '../../repair-orders/index.js';
import {
  markUsed,
  onlyForVehicle,
  onlyTaken,
  takeReservationInHand,
  type ReservationInHand,
} from '../data/reservation-in-hand.js';
import { keptToday } from '../queries/kept-today.query.js';

/**
 * The reservation on which a vehicle comes, locked: the one that the desk names, else the only one that is kept for it
 * today. One that was named and cannot be meant is told at its field; one that nobody named is passed over.
 */
export async function findKept(tx: Tx, arrival: Arrival): Promise<Result<KeptForArrival | null>> {
  const { reservationId, vehicleId, customerId } = arrival;
  if (reservationId === null) return ok(null);
  const id = reservationId ?? (await keptToday(tx, vehicleId, customerId));
  if (id === null) return ok(null);
  const kept = await takeForArrival(tx, id.toLowerCase(), vehicleId);
  if (!kept.ok) return reservationId === undefined ? ok(null) : atItsField(kept.fault);
  const { row } = kept.value;
  return ok({
    promisedAt: row.promisedAt,
    handOver: (repairOrderId) => markUsed(tx, row, { repairOrderId, vehicleId, customerId }),
  });
}

async function takeForArrival(
  tx: Tx,
  reservationId: string,
  vehicleId: string,
): Promise<Result<ReservationInHand>> {
  const inHand = await takeReservationInHand(tx, reservationId);
  if (!inHand.ok) return inHand;
  const taken = onlyTaken(inHand.value);
  if (!taken.ok) return taken;
  const { row } = inHand.value;
  if (row.repairOrderId !== null)
    return fail(
      'reservation-state',
      `Reservation ${row.number} was used for another repair order already. Leave it out.`,
      { facts: { repairOrderId: row.repairOrderId } },
    );
  const fits = onlyForVehicle(row, vehicleId);
  return fits.ok ? inHand : fits;
}

const atItsField = ({ code, detail, facts }: Fault) =>
  fail(code, detail, { fields: [{ pointer: '/reservationId', detail }], ...(facts ? { facts } : {}) });
