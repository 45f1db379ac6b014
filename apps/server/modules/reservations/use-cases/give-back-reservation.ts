import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { freePlacesOf } from '../../scheduling/index.js';
import { takeReservationInHand } from '../data/reservation-in-hand.js';
import { ReservationRow } from '../data/reservation.entity.js';

/** Its places are for everybody again; that it was there stays on record. */
export async function giveBackReservation(
  tx: Tx,
  reservationId: string,
  version: number | '*',
): Promise<Result<void>> {
  const inHand = await takeReservationInHand(tx, reservationId);
  if (!inHand.ok) return inHand;
  const { row } = inHand.value;
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  await tx.em.update(
    ReservationRow,
    { shopId: tx.shopId, id: reservationId },
    {
      ...{ releasedAt: tx.now, releasedBy: tx.staffId, releaseReason: 'given-back' },
      version: row.version + 1,
    },
  );
  await freePlacesOf(tx, reservationId);
  await tx.audit('reservation.give-back', 'reservation', reservationId);
  return ok(undefined);
}
