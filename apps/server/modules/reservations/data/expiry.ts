import type { Tx } from '../../../platform/database/tx.js';

export const EXPIRY_TASK = 'reservation-expiry';
/** A little after the time itself, so that it is over when the job looks. */
const AFTER_MS = 1_000;

/** Gives the places back when the time is over. Whoever gives out places does so too, whether or not this job ever runs. */
export function enqueueExpiry(tx: Tx, reservationId: string, minutes: number): void {
  tx.enqueue(
    EXPIRY_TASK,
    { reservationId },
    { key: reservationId, runAt: new Date(tx.wall.getTime() + minutes * 60_000 + AFTER_MS) },
  );
}
