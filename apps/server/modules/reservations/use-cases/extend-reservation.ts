import { fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { shopSettings } from '../../identity/index.js';
import { enqueueExpiry } from '../data/expiry.js';
import { onlyHeld, takeReservationInHand } from '../data/reservation-in-hand.js';
import { ReservationRow } from '../data/reservation.entity.js';
import type { ReservationResponse } from '../dto/reservation.response.js';
import { reservationById } from '../queries/reservations.query.js';

/** Holds it longer, once: who needs longer still takes it or lets others have it. */
export async function extendReservation(
  tx: Tx,
  reservationId: string,
  version: number | '*',
  minutes: number | undefined,
): Promise<Result<ReservationResponse>> {
  const inHand = await takeReservationInHand(tx, reservationId);
  if (!inHand.ok) return inHand;
  const { row } = inHand.value;
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const held = onlyHeld(inHand.value);
  if (!held.ok) return held;
  if (row.extendedAt !== null)
    return fail('reservation-state', 'It was extended once already. Take it, or give it back.', {
      facts: { extendedAt: row.extendedAt.toISOString() },
    });
  const settings = await shopSettings(tx);
  if (!settings.ok) return settings;
  const longer = minutes ?? settings.value.holdMinutes;
  const expiresAt = new Date(tx.now.getTime() + longer * 60_000);
  if (row.expiresAt !== null && expiresAt <= row.expiresAt) {
    const detail = 'It is held longer than that already.';
    return fail('request-invalid', detail, { fields: [{ pointer: '/minutes', detail }] });
  }
  await tx.em.update(
    ReservationRow,
    { shopId: tx.shopId, id: reservationId },
    { expiresAt, extendedAt: tx.now, version: row.version + 1 },
  );
  enqueueExpiry(tx, reservationId, longer);
  await tx.audit('reservation.extend', 'reservation', reservationId, { expiresAt });
  tx.announce('reservation', { reservationId });
  return reservationById(tx, reservationId);
}
