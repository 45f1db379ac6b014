import { DateTime } from 'luxon';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import {
  cautionTexts,
  claimOf,
  floorNow,
  holdResponses,
  placeOf,
  standingOf,
  workOrderFacts,
  type FloorNow,
  type WorkOrderFactsRow,
} from '../../work-orders/index.js';
import type { BoardResponse, TicketResponse } from '../dto/board.response.js';
import { boardClosures } from './board-closures.query.js';
import { boardBays } from './board-bays.query.js';
import { reservedPlaces } from './reserved-places.query.js';

interface ShopDay {
  timeZone: string;
  startsMinute: number;
  endsMinute: number;
  lastEventId: string;
}

/**
 * The floor on a day. The newest live event is read first and the rest after it: what happens in between is on the
 * board and told once more, which costs one reading; the other way round it would be missed for good.
 */
export async function board(tx: Tx, wanted: string | undefined): Promise<Result<BoardResponse>> {
  const shop = await shopDay(tx);
  const zone = shop.timeZone;
  const start = wanted === undefined ? today(tx, zone) : DateTime.fromISO(wanted, { zone }).startOf('day');
  if (!start.isValid)
    return fail('request-invalid', 'There is no such day.', {
      fields: [{ pointer: '/day', detail: 'Give a day that exists, such as 2026-03-14.' }],
    });
  const bays = await boardBays(tx);
  const floor = await floorNow(tx);
  const rows = await ticketsOf(tx, start);
  return ok({
    day: start.toFormat('yyyy-MM-dd'),
    timeZone: zone,
    now: tx.now.toISOString(),
    dayStartsAt: wallClock(start, shop.startsMinute),
    dayEndsAt: wallClock(start, shop.endsMinute),
    lastEventId: shop.lastEventId,
    bays,
    technicians: floor.people
      .filter(({ isTechnician }) => isTechnician)
      .map(({ id, name, skills }) => ({
        id,
        displayName: name,
        skills: skills
          .filter(({ expiresOn }) => expiresOn === null || expiresOn >= floor.today)
          .map(({ skill }) => skill),
      })),
    tickets: rows.map((row) => ticket(row, floor)),
    reserved: await reservedPlaces(tx, start),
    closures: await boardClosures(tx, start),
  });
}

async function shopDay(tx: Tx): Promise<ShopDay> {
  const row = await tx.one<ShopDay>(
    `select s.time_zone as "timeZone", s.day_starts_minute as "startsMinute", s.day_ends_minute as "endsMinute",
            (select coalesce(max(id), 0)::text from live_events where shop_id = $1) as "lastEventId"
       from shops s where s.shop_id = $1`,
    [tx.shopId],
  );
  if (!row) throw new Error('the shop of a signed-in person exists');
  return row;
}

const today = (tx: Tx, zone: string): DateTime => DateTime.fromJSDate(tx.now, { zone }).startOf('day');

/** The shop opens by the clock on the wall, also on the two days of the year that are longer or shorter. */
function wallClock(day: DateTime, minute: number): string {
  const at = day
    .plus({ days: Math.floor(minute / 1440) })
    .set({ hour: Math.floor((minute % 1440) / 60), minute: minute % 60 });
  return at.toJSDate().toISOString();
}

/** From midnight to midnight of the shop: 23, 24 or 25 hours. */
async function ticketsOf(tx: Tx, start: DateTime): Promise<WorkOrderFactsRow[]> {
  const end = start.plus({ days: 1 }).startOf('day');
  return workOrderFacts(
    tx,
    `w.withdrawn_at is null and w.id in (
       select o.id from work_orders o where o.shop_id = $1 and o.withdrawn_at is null and o.checked_at is null
       union
       select p.work_order_id from assignments p where p.shop_id = $1 and p.cancelled_at is null
          and tstzrange(p.starts_at, p.ends_at) && tstzrange($3, $4))`,
    [start.toJSDate(), end.toJSDate()],
  );
}

function ticket(row: WorkOrderFactsRow, floor: FloorNow): TicketResponse {
  const standing = standingOf(row, floor);
  if (standing.state === 'withdrawn') throw new Error('withdrawn work is not on the board');
  const claim = claimOf(row);
  return {
    workOrderId: row.id,
    workOrderNumber: row.number,
    repairOrderId: row.repairOrderId,
    repairOrderNumber: row.repairOrderNumber,
    title: row.title,
    vehicle: { label: row.vehicleLabel, plate: row.plate },
    bookHundredths: row.bookHundredths,
    clockedSeconds: row.clockedSeconds,
    state: standing.state,
    holds: holdResponses(standing),
    canStart: standing.canStart,
    claim: claim && {
      technicianId: claim.technicianId,
      displayName: claim.displayName,
      claimedAt: claim.claimedAt,
    },
    assignment: placeOf(row),
    unsafe: row.isUnsafe,
    cautions: cautionTexts(row),
    promisedAt: row.promisedAt?.toISOString() ?? null,
  };
}
