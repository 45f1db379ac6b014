import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { ReservationState } from '../dto/reservation.response.js';
import { ReservationRow } from './reservation.entity.js';
import { stateOf } from './reservation.mapping.js';

export interface ReservationInHand {
  readonly row: ReservationRow;
  readonly state: ReservationState;
}

const OVER: Readonly<Partial<Record<ReservationState, string>>> = {
  expired: 'Nobody took it in time, and its places are free for everybody again. Ask for offers again.',
  'given-back': 'It was given back. Ask for offers again.',
  used: 'Its work is on a repair order already.',
  'not-come': 'The car did not come on its day, and its places are free again. Ask for offers again.',
};

/** Locked until the end of the transaction: of taking it, extending it and its running out exactly one comes first. */
export async function takeReservationInHand(
  tx: Tx,
  reservationId: string,
): Promise<Result<ReservationInHand>> {
  const row = await tx.em.findOne(ReservationRow, {
    where: { shopId: tx.shopId, id: reservationId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!row) return fail('not-found', 'There is no such reservation in this shop.');
  const state = stateOf(
    {
      ...{ expires_at: row.expiresAt, taken_at: row.takenAt, lapses_at: row.lapsesAt },
      ...{ released_at: row.releasedAt, release_reason: row.releaseReason },
      repair_order_id: row.repairOrderId,
    },
    tx.now,
  );
  const over = OVER[state];
  return over === undefined
    ? ok({ row, state })
    : fail('reservation-over', `Reservation ${row.number} is over. ${over}`, { facts: { state } });
}

/** That it is only held, by somebody who is still on the phone. */
export function onlyHeld({ row, state }: ReservationInHand): Result<void> {
  return state === 'held'
    ? ok(undefined)
    : fail('reservation-state', `Reservation ${row.number} has been taken already.`, { facts: { state } });
}

/** That somebody said yes: a name stands behind it. */
export function onlyTaken({ row, state }: ReservationInHand): Result<void> {
  return state === 'taken'
    ? ok(undefined)
    : fail(
        'reservation-state',
        `Reservation ${row.number} is only held. Take it first: say who comes and what was promised.`,
        { facts: { state } },
      );
}

/** A reservation that names no vehicle is for whichever comes. */
export function onlyForVehicle(row: ReservationRow, vehicleId: string): Result<void> {
  return row.vehicleId === null || row.vehicleId === vehicleId
    ? ok(undefined)
    : fail(
        'reservation-for-another-vehicle',
        'This repair order is for another vehicle than the reservation. Choose the right one, or give the reservation back.',
        { facts: { vehicleId: row.vehicleId } },
      );
}

/** The car has come. Its places stay until the real work of this repair order takes them over. */
export async function markUsed(
  tx: Tx,
  row: ReservationRow,
  stay: { readonly repairOrderId: string; readonly vehicleId: string; readonly customerId: string },
): Promise<void> {
  const { repairOrderId, vehicleId, customerId } = stay;
  await tx.em.update(
    ReservationRow,
    { shopId: tx.shopId, id: row.id },
    { repairOrderId, vehicleId, customerId: row.customerId ?? customerId, version: row.version + 1 },
  );
  await tx.audit('reservation.use', 'reservation', row.id, { repairOrderId });
  tx.announce('reservation', { reservationId: row.id, repairOrderId });
}
