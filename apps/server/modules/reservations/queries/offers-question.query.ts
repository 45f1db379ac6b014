import { DateTime } from 'luxon';
import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import { keptAssignments, type Plan, type PlanProblem, type PlanRepairOrder } from '#libs/plan';
import { shopSettings, type ShopSettings } from '../../identity/index.js';
import { loadShopPlan, type PlanContributor, type PlanHorizon, type ShopPlan } from '../../planning/index.js';
import type { Tx } from '../../../platform/database/tx.js';
import { visitAsked, type AskedVisit } from '../data/asked-visit.js';
import { minutesOf } from '../data/likely-minutes.js';
import { planOrder } from '../data/plan-order.js';
import type { AskOffersRequest, BroughtRequest } from '../dto/offer.request.js';

/** Mornings that are offered when nobody says when the vehicle could be brought. */
const MORNINGS = 3;
const EVERY_MINUTES = 5;

export interface ReservedName {
  readonly reservationId: string;
  readonly number: number;
  readonly title: string;
}

/** Everything that the thread is asked, and what turns its answer into words. */
export interface OffersQuestion {
  readonly visit: AskedVisit;
  readonly shop: ShopPlan;
  readonly settings: ShopSettings;
  readonly current: Plan;
  readonly newOrder: PlanRepairOrder;
  readonly arrivals: readonly number[];
  readonly reserved: ReadonlyMap<string, ReservedName>;
  readonly now: Date;
}

export const ASKED = 'asked';
export const askedOperation = (work: number): string => `${ASKED}:${work}`;

export async function offersQuestion(
  tx: Tx,
  request: AskOffersRequest,
  contributors: readonly PlanContributor[],
): Promise<Result<OffersQuestion>> {
  const visit = await visitAsked(tx, request);
  if (!visit.ok) return visit;
  const settings = await shopSettings(tx);
  if (!settings.ok) return settings;
  const shop = await loadShopPlan(tx, contributors);
  const arrivals = arrivalsOf(request.brought ?? [], shop, settings.value);
  if (!arrivals.ok) return arrivals;
  const operations = visit.value.work.map((work, at) => ({
    ...work,
    ...{ id: askedOperation(at), toolIds: work.tools.map(({ id }) => id) },
    ...minutesOf(work, settings.value.commonSpreadPpm),
  }));
  return ok({
    ...{ visit: visit.value, shop, settings: settings.value, arrivals: arrivals.value },
    current: asItStands(shop.problem),
    newOrder: planOrder(ASKED, operations, visit.value, arrivals.value[0] ?? shop.problem.now),
    reserved: await reservedNames(tx),
    now: tx.now,
  });
}

/**
 * The plan as it is stored. What should have begun and has not takes its whole time from now on: until somebody plans it
 * anew, nobody else is offered its place.
 */
export function asItStands(problem: PlanProblem): Plan {
  const started = new Set(
    problem.repairOrders.flatMap(({ operations }) =>
      operations.flatMap(({ id, started: begun }) => (begun == null ? [] : [id])),
    ),
  );
  const assignments = keptAssignments(problem).map((one) =>
    started.has(one.operation) || one.start >= problem.now
      ? one
      : { ...one, end: one.end + (problem.now - one.start) },
  );
  return { assignments, unplaced: [] };
}

/** In order, each once. What was asked for must lie in the days that are planned. */
function arrivalsOf(
  brought: readonly BroughtRequest[],
  shop: ShopPlan,
  settings: ShopSettings,
): Result<number[]> {
  const { horizon } = shop;
  const fields: FieldFault[] = [];
  const asked = brought.flatMap(({ at, day }, index): number[] => {
    const say = (detail: string): number[] => {
      fields.push({ pointer: `/brought/${index}`, detail });
      return [];
    };
    if ((at === undefined) === (day === undefined)) return say('Give a time, or a day.');
    const minute = at === undefined ? opening(day ?? '', horizon, settings) : horizon.minuteOf(new Date(at));
    const endOfDay = at === undefined ? minute + 1440 : minute;
    if (endOfDay < horizon.now) return say('That is over. Give a time that is still to come.');
    if (minute >= horizon.until)
      return say(
        `That is beyond the days that are planned, which end on ${saidDay(horizon.until - 1, horizon)}.`,
      );
    return [Math.max(minute, soon(horizon.now))];
  });
  if (fields.length > 0)
    return fail('request-invalid', fields.map(({ detail }) => detail).join(' '), { fields });
  const wanted = brought.length > 0 ? asked : usualArrivals(shop, settings);
  return ok([...new Set(wanted)].sort((a, b) => a - b));
}

const soon = (minute: number): number => Math.ceil(minute / EVERY_MINUTES) * EVERY_MINUTES;

const saidDay = (minute: number, { instantOf, timeZone }: PlanHorizon): string =>
  DateTime.fromJSDate(instantOf(minute), { zone: timeZone }).toISODate() ?? '';

/** When the shop opens on a day, by the clock on the wall. */
function opening(
  day: string,
  { minuteOf, timeZone }: PlanHorizon,
  { dayStartsMinute }: ShopSettings,
): number {
  const at = DateTime.fromISO(day, { zone: timeZone }).set({
    hour: Math.floor(dayStartsMinute / 60),
    minute: dayStartsMinute % 60,
  });
  return minuteOf(at.toJSDate());
}

/** As soon as can be, where somebody still works today, and the next mornings on which somebody works. */
function usualArrivals({ problem, horizon }: ShopPlan, settings: ShopSettings): number[] {
  const worksWithin = (from: number, to: number): boolean =>
    problem.technicians.some(({ works }) => works.some(([opens, closes]) => opens < to && from < closes));
  const today = DateTime.fromJSDate(horizon.instantOf(horizon.now), { zone: horizon.timeZone }).startOf(
    'day',
  );
  const dayOf = (days: number): string => today.plus({ days }).toISODate() ?? '';
  const first = Math.max(soon(horizon.now), opening(dayOf(0), horizon, settings));
  const arrivals = worksWithin(first, opening(dayOf(1), horizon, settings)) ? [first] : [];
  for (let days = 1; arrivals.length <= MORNINGS; days++) {
    const opens = opening(dayOf(days), horizon, settings);
    if (opens >= horizon.until) break;
    if (worksWithin(opens, opening(dayOf(days + 1), horizon, settings))) arrivals.push(opens);
  }
  return arrivals.length > 0 ? arrivals : [soon(horizon.now)];
}

/** What the operations of reservations are called, by their ids. */
async function reservedNames(tx: Tx): Promise<Map<string, ReservedName>> {
  const rows = await tx.rows<ReservedName & { operation: string }>(
    `select o.id as operation, o.title, r.id as "reservationId", r.number from reservation_operations o
       join reservations r on r.shop_id = o.shop_id and r.id = o.reservation_id
      where o.shop_id = $1 and r.released_at is null`,
    [tx.shopId],
  );
  return new Map(rows.map(({ operation, ...name }) => [operation, name]));
}
