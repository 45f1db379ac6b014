import { DateTime } from 'luxon';
import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { shopSettings } from '../../identity/index.js';
import { customerOf, vehicleOf } from '../../vehicles/index.js';
import { onlyHeld, takeReservationInHand } from '../data/reservation-in-hand.js';
import { ReservationRow } from '../data/reservation.entity.js';
import type { TakeReservationRequest } from '../dto/reservation.request.js';
import type { ReservationResponse } from '../dto/reservation.response.js';
import { reservationById } from '../queries/reservations.query.js';
import { workWithoutPlace } from '../queries/work-without-place.query.js';

/** Gives places to work that has none yet by moving others; answers with a fault where that no longer works. */
export type Rearrange = (tx: Tx, row: ReservationRow, promisedAt: Date) => Promise<Result<void>>;

/**
 * The customer has said yes: the reservation stays in the plan, for somebody with a name and for the time that was told.
 * From now on the plan may move it between its arrival and that time.
 */
export async function takeReservation(
  tx: Tx,
  reservationId: string,
  request: TakeReservationRequest,
  rearrange: Rearrange,
): Promise<Result<ReservationResponse>> {
  const inHand = await takeReservationInHand(tx, reservationId);
  if (!inHand.ok) return inHand;
  const held = onlyHeld(inHand.value);
  if (!held.ok) return held;
  const { row } = inHand.value;
  const whom = await forWhom(tx, row, request);
  if (!whom.ok) return whom;
  const promisedAt = promiseOf(row, request);
  if (!promisedAt.ok) return promisedAt;
  const settings = await shopSettings(tx);
  if (!settings.ok) return settings;
  if ((await workWithoutPlace(tx, reservationId)).length > 0) {
    const moved = await rearrange(tx, row, promisedAt.value);
    if (!moved.ok) return moved;
  }
  const lapsesAt = await endOfItsDay(tx, row, settings.value.timeZone);
  await tx.em.update(
    ReservationRow,
    { shopId: tx.shopId, id: reservationId },
    {
      ...whom.value,
      ...{ takenAt: tx.now, takenBy: tx.staffId, expiresAt: null, promisedAt: promisedAt.value },
      ...{ lapsesAt, note: request.note ?? row.note, version: row.version + 1 },
    },
  );
  await letThePlanMoveIt(tx, reservationId);
  await tx.audit('reservation.take', 'reservation', reservationId, { promisedAt: promisedAt.value });
  tx.announce('reservation', { reservationId });
  return reservationById(tx, reservationId);
}

/**
 * The end of the day on which its work begins: a car that is left in the evening for the next morning has no repair order
 * before the desk opens, and a place kept for the morning must not be given away at night.
 */
async function endOfItsDay(tx: Tx, { id, arrivesAt }: ReservationRow, zone: string): Promise<Date> {
  const begins = await tx.one<{ at: Date | null }>(
    `select min(a.starts_at) as at from assignments a
       join reservation_operations o on o.shop_id = $1 and o.id = a.reservation_operation_id
      where a.shop_id = $1 and o.reservation_id = $2 and a.cancelled_at is null`,
    [tx.shopId, id],
  );
  const at = begins?.at != null && begins.at > arrivesAt ? begins.at : arrivesAt;
  return DateTime.fromJSDate(at, { zone }).plus({ days: 1 }).startOf('day').toJSDate();
}

type Whom = Pick<ReservationRow, 'customerId' | 'customerName' | 'phone' | 'vehicleId' | 'vehicleWords'>;

/** Who comes and with what: records of the shop where they are known, else the words that were said. */
async function forWhom(tx: Tx, row: ReservationRow, request: TakeReservationRequest): Promise<Result<Whom>> {
  const vehicleId = request.vehicleId?.toLowerCase() ?? row.vehicleId;
  const customerId = request.customerId?.toLowerCase() ?? row.customerId;
  const fields: FieldFault[] = [];
  const need = (field: string, detail: string): void => void fields.push({ pointer: `/${field}`, detail });
  if (customerId === null && request.customerName === undefined) need('customerName', 'Say who comes.');
  if (customerId === null && request.phone === undefined)
    need('phone', 'Ask for a number under which they can be called back.');
  if (vehicleId === null && request.vehicleWords === undefined)
    need('vehicleWords', 'Say which vehicle it is, in their own words.');
  if (fields.length > 0)
    return fail('request-invalid', fields.map(({ detail }) => detail).join(' '), { fields });
  const fits = await fitsVehicle(tx, row, request.vehicleId);
  if (!fits.ok) return fits;
  const customer = customerId === null ? null : await customerOf(tx, customerId);
  if (customer !== null && !customer.ok) return customer;
  return ok({
    ...{ customerId, vehicleId },
    customerName: request.customerName ?? null,
    phone: request.phone ?? null,
    vehicleWords: request.vehicleWords ?? null,
  });
}

/** The places were looked for with the weight and height that were told: a vehicle that is more than that needs others. */
async function fitsVehicle(
  tx: Tx,
  row: ReservationRow,
  vehicleId: string | undefined,
): Promise<Result<void>> {
  if (vehicleId === undefined || vehicleId.toLowerCase() === row.vehicleId) return ok(undefined);
  const vehicle = await vehicleOf(tx, vehicleId);
  if (!vehicle.ok) return vehicle;
  const { weightKg, heightMm } = vehicle.value;
  const isMore = (is: number | null, told: number | null): boolean =>
    is !== null && (told === null || is > told);
  if (!isMore(weightKg, row.weightKg) && !isMore(heightMm, row.heightMm)) return ok(undefined);
  return fail(
    'place-not-possible',
    'This vehicle is heavier or higher than what the places were looked for with. Ask for offers for this vehicle.',
    { facts: { weightKg, heightMm, toldWeightKg: row.weightKg, toldHeightMm: row.heightMm } },
  );
}

function promiseOf(row: ReservationRow, request: TakeReservationRequest): Result<Date> {
  if (request.promisedAt === undefined) return ok(row.readyP80At);
  const promised = new Date(request.promisedAt);
  if (promised >= row.readyAt) return ok(promised);
  const detail =
    'It is as likely as not to be ready only after that. Promise no earlier than the likely time.';
  return fail('request-invalid', detail, {
    fields: [{ pointer: '/promisedAt', detail }],
    facts: { readyAt: row.readyAt.toISOString() },
  });
}

async function letThePlanMoveIt(tx: Tx, reservationId: string): Promise<void> {
  await tx.em.query(
    `update assignments a set is_pinned = false, version = a.version + 1 from reservation_operations o
      where a.shop_id = $1 and o.shop_id = $1 and o.reservation_id = $2 and a.reservation_operation_id = o.id
        and a.cancelled_at is null and a.is_pinned`,
    [tx.shopId, reservationId],
  );
}
