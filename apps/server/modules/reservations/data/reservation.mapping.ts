import { DateTime } from 'luxon';
import type {
  ReservationResponse,
  ReservationState,
  ReservedWorkResponse,
} from '../dto/reservation.response.js';
import { saidTime } from './offer-words.js';

/** As the database has it, with the names that people read. */
export interface StoredReservation {
  readonly id: string;
  readonly number: number;
  readonly made_by: string;
  readonly made_by_name: string;
  readonly made_at: Date;
  readonly expires_at: Date | null;
  readonly extended_at: Date | null;
  readonly taken_at: Date | null;
  readonly lapses_at: Date | null;
  readonly released_at: Date | null;
  readonly release_reason: string | null;
  readonly repair_order_id: string | null;
  readonly repair_order_number: number | null;
  readonly customer_id: string | null;
  readonly customer_said: string | null;
  readonly phone_said: string | null;
  readonly vehicle_id: string | null;
  readonly vehicle_said: string | null;
  readonly weight_kg: number | null;
  readonly height_mm: number | null;
  readonly note: string | null;
  readonly arrives_at: Date;
  readonly ready_at: Date;
  readonly ready_p80_at: Date;
  readonly promised_at: Date | null;
  readonly time_zone: string;
  readonly version: number;
  readonly work: readonly (Omit<ReservedWorkResponse, 'startsAt' | 'endsAt'> & {
    startsAt: string;
    endsAt: string;
  })[];
}

type Standing = Pick<
  StoredReservation,
  'expires_at' | 'taken_at' | 'lapses_at' | 'released_at' | 'release_reason' | 'repair_order_id'
>;

/** Where a reservation stands, from what is stored and the time; nothing of it is kept. */
export function stateOf(row: Standing, now: Date): ReservationState {
  if (row.released_at !== null) return row.release_reason as ReservationState;
  if (row.taken_at === null) return row.expires_at !== null && row.expires_at <= now ? 'expired' : 'held';
  const isLate = row.repair_order_id === null && row.lapses_at !== null && row.lapses_at <= now;
  return isLate ? 'not-come' : 'taken';
}

export function reservationResponse(row: StoredReservation, now: Date): ReservationResponse {
  const state = stateOf(row, now);
  const iso = (at: Date | null): string | null => at?.toISOString() ?? null;
  return {
    ...{ id: row.id, number: row.number, state },
    ...{ madeBy: row.made_by, madeByName: row.made_by_name, madeAt: row.made_at.toISOString() },
    ...{ expiresAt: iso(row.expires_at), isExtended: row.extended_at !== null },
    ...{ takenAt: iso(row.taken_at), promisedAt: iso(row.promised_at), lapsesAt: iso(row.lapses_at) },
    releasedAt: iso(row.released_at),
    ...{ repairOrderId: row.repair_order_id, repairOrderNumber: row.repair_order_number },
    ...{ customerId: row.customer_id, customerName: row.customer_said, phone: row.phone_said },
    ...{ vehicleId: row.vehicle_id, vehicleWords: row.vehicle_said === '' ? null : row.vehicle_said },
    ...{ weightKg: row.weight_kg, heightMm: row.height_mm, note: row.note },
    arrivesAt: row.arrives_at.toISOString(),
    readyAt: row.ready_at.toISOString(),
    readyP80At: row.ready_p80_at.toISOString(),
    work: row.work.map((one) => ({
      ...one,
      startsAt: new Date(one.startsAt).toISOString(),
      endsAt: new Date(one.endsAt).toISOString(),
    })),
    words: wordsOf(row, state, now),
    version: row.version,
  };
}

function wordsOf(row: StoredReservation, state: ReservationState, now: Date): string {
  const said = (at: Date | null): string =>
    at === null ? '' : saidTime(at.toISOString(), row.time_zone, now);
  const who = row.customer_said ?? 'somebody';
  switch (state) {
    case 'held': {
      const until = DateTime.fromJSDate(row.expires_at ?? now, { zone: row.time_zone }).toFormat('HH:mm');
      const isWhole = row.work.every(({ isKept }) => isKept);
      const wish = isWhole ? '' : ' What the offer moves is moved when it is taken.';
      return `Reserved until ${until} by ${row.made_by_name}.${wish}`;
    }
    case 'taken':
      return row.repair_order_number === null
        ? `Kept for ${who}: comes ${said(row.arrives_at)}, promised by ${said(row.promised_at)}.`
        : `${who} has come: repair order ${row.repair_order_number}, promised by ${said(row.promised_at)}.`;
    case 'expired':
      return 'Nobody took it in time; its places are free again.';
    case 'given-back':
      return 'It was given back; its places are free again.';
    case 'used':
      return `Its work is on repair order ${row.repair_order_number ?? ''} now.`;
    case 'not-come':
      return `The car did not come on ${said(row.arrives_at)}; its places are free again.`;
  }
}
