import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import {
  checkPlan,
  keptAssignments,
  readyP80,
  type PlanAssignment,
  type PlanProblem,
  type PlanRepairOrder,
} from '#libs/plan';
import type { Tx } from '../../../platform/database/tx.js';
import { shopSettings } from '../../identity/index.js';
import {
  loadShopPlan,
  unitId,
  withNames,
  type PlanContributor,
  type ShopPlan,
} from '../../planning/index.js';
import {
  freePlace,
  freeReservedPlaces,
  keepPlaces,
  lockPlaces,
  type FreePlace,
  type Place,
} from '../../scheduling/index.js';
import { visitAsked, type AskedVisit } from '../data/asked-visit.js';
import { enqueueExpiry } from '../data/expiry.js';
import { minutesOf } from '../data/likely-minutes.js';
import { planOrder } from '../data/plan-order.js';
import { storeReservation, type WorkToStore } from '../data/store-reservation.js';
import type { ReserveRequest } from '../dto/reservation.request.js';
import type { ReservationResponse } from '../dto/reservation.response.js';
import { reservationById } from '../queries/reservations.query.js';

/** The same draws every time: the same places have the same answer. */
const SEED = 1;
/** Work on the clock is likely to be over a little earlier or later; its end is no reason to refuse a place this near to it. */
const SLACK_MINUTES = 15;

/**
 * Holds the places of an offer while the customer is on the phone. Nothing of the offer is trusted: the places are locked
 * and checked against the shop as it is now, and stored under the same constraints as any other place. Places that are
 * only free once others have moved are written down as a wish and hold nothing.
 */
export async function reserve(
  tx: Tx,
  request: ReserveRequest,
  contributors: readonly PlanContributor[],
): Promise<Result<ReservationResponse>> {
  const visit = await visitAsked(tx, request);
  if (!visit.ok) return visit;
  const shape = placeFaults(request, visit.value);
  if (shape.length > 0)
    return fail('request-invalid', shape.map(({ detail }) => detail).join(' '), { fields: shape });
  const settings = await shopSettings(tx);
  if (!settings.ok) return settings;
  const work = workToStore(tx, request, visit.value, settings.value.commonSpreadPpm);
  await lockPlaces(tx, work);
  await freeReservedPlaces(tx, 'none');
  const shop = await loadShopPlan(tx, contributors);
  const moves = request.moves ?? [];
  const free = await freeOf(tx, work, settings.value.timeZone, moves.length > 0);
  if (!free.ok) return free;
  const held = checked(shop, visit.value, request, work, free.value, moves);
  if (!held.ok) return held;
  const { readyAt, readyP80At } = held.value;
  const expiresAt = new Date(tx.now.getTime() + settings.value.holdMinutes * 60_000);
  const id = await storeReservation(tx, visit.value, work, {
    ...{ readyAt, readyP80At, expiresAt, note: request.note ?? null },
    arrivesAt: new Date(request.arrivesAt),
  });
  await keepPlaces(tx, free.value, true);
  enqueueExpiry(tx, id, settings.value.holdMinutes);
  await tx.audit('reservation.make', 'reservation', id, { kept: free.value.size, of: work.length });
  tx.announce('reservation', { reservationId: id });
  return reservationById(tx, id);
}

function placeFaults({ places }: ReserveRequest, { work }: AskedVisit): FieldFault[] {
  const fields: FieldFault[] = [];
  const seen = new Set<number>();
  places.forEach(({ work: at, startsAt, endsAt }, index) => {
    const say = (field: string, detail: string): void =>
      void fields.push({ pointer: `/places/${index}/${field}`, detail });
    if (at >= work.length) say('work', 'There is no such entry of the work.');
    if (seen.has(at)) say('work', 'This entry of the work has a place already.');
    seen.add(at);
    if (Date.parse(startsAt) >= Date.parse(endsAt)) say('endsAt', 'The end must be later than the start.');
  });
  if (fields.length === 0 && seen.size < work.length)
    fields.push({ pointer: '/places', detail: 'Give a place for each entry of the work.' });
  return fields;
}

function workToStore(
  tx: Tx,
  request: ReserveRequest,
  visit: AskedVisit,
  commonSpreadPpm: number,
): WorkToStore[] {
  return visit.work.map((work, at) => {
    const chosen = request.places.find((place) => place.work === at);
    if (chosen === undefined) throw new Error('each entry of the work has a place');
    return {
      ...work,
      ...{ id: tx.newId(), sequence: at, ...minutesOf(work, commonSpreadPpm) },
      toolIds: work.tools.map(({ id }) => id),
      ...{ bayId: chosen.bayId.toLowerCase(), technicianId: chosen.technicianId.toLowerCase() },
      ...{ startsAt: new Date(chosen.startsAt), endsAt: new Date(chosen.endsAt) },
    };
  });
}

/** Which of the places nobody has. Where the offer moves others, one that somebody has is only wished for. */
async function freeOf(
  tx: Tx,
  work: readonly WorkToStore[],
  zone: string,
  mayBeTaken: boolean,
): Promise<Result<Map<string, FreePlace>>> {
  const free = new Map<string, FreePlace>();
  for (const { id, tools, bayId, technicianId, startsAt, endsAt } of work) {
    const place: Place = { bayId, technicianId, startsAt, endsAt };
    const found = await freePlace(tx, place, tools, zone);
    if (found.ok) free.set(id, found.value);
    else if (!mayBeTaken) return found;
  }
  return ok(free);
}

/** Whether the work can be done there at all, by the checker that shares nothing with the search; and when it is ready. */
function checked(
  shop: ShopPlan,
  visit: AskedVisit,
  request: ReserveRequest,
  work: readonly WorkToStore[],
  free: ReadonlyMap<string, FreePlace>,
  moves: readonly string[],
): Result<{ readyAt: Date; readyP80At: Date }> {
  const { problem, horizon } = shop;
  const arrives = horizon.minuteOf(new Date(request.arrivesAt));
  const order = planOrder('new', work, visit, Math.max(0, arrives));
  const mine = work.map((one) => assignmentOf(one, free.get(one.id), shop));
  const whole = { ...problem, repairOrders: [...problem.repairOrders, order] };
  const others = othersOf(problem, moves);
  const own = new Set(mine.map(({ operation }) => operation));
  const broken = checkPlan(whole, { assignments: [...others, ...mine] }).filter(
    ({ rule, operations }) => rule !== 'operation-missing' && operations.some((id) => own.has(id)),
  );
  if (broken.length > 0) {
    const names = new Map([...shop.names, ...work.map(({ id, title }) => [id, title] as const)]);
    const said = [...new Set(broken.map(({ detail }) => withNames(detail, names)))].join(' ');
    return fail('place-not-possible', `${said} Ask for offers again.`, {
      facts: { rules: [...new Set(broken.map(({ rule }) => rule))] },
    });
  }
  const ready = Math.max(...mine.map(({ end }) => end));
  const p80 = readyP80(whole, [...others, ...mine], order.id, SEED);
  return ok({ readyAt: horizon.instantOf(ready), readyP80At: horizon.instantOf(Math.max(ready, p80)) });
}

function assignmentOf(
  work: WorkToStore,
  free: FreePlace | undefined,
  { horizon, problem }: ShopPlan,
): PlanAssignment {
  const anyUnit = (kind: string): string => problem.tools?.find((tool) => tool.kind === kind)?.id ?? '';
  return {
    operation: work.id,
    ...{ start: horizon.minuteOf(work.startsAt), end: horizon.minuteOf(work.endsAt) },
    ...{ bay: work.bayId, technicians: [work.technicianId] },
    tools: free?.tools.map(({ toolId, unit }) => unitId(toolId, unit)) ?? work.toolIds.map(anyUnit),
  };
}

/** What is planned beside it, without what the offer moves. */
function othersOf(problem: PlanProblem, moves: readonly string[]): PlanAssignment[] {
  const moved = new Set(moves.map((id) => id.toLowerCase()));
  const isMoved = (order: PlanRepairOrder, operation: string): boolean =>
    moved.has(operation) || moved.has(order.id);
  const operations = new Map(
    problem.repairOrders.flatMap((order) =>
      order.operations.map(({ id, started }) => [
        id,
        { isStarted: started != null, isMoved: isMoved(order, id) },
      ]),
    ),
  );
  return keptAssignments(problem).flatMap((one) => {
    const known = operations.get(one.operation);
    if (known?.isMoved === true) return [];
    const end = known?.isStarted === true ? Math.max(one.start + 1, one.end - SLACK_MINUTES) : one.end;
    return [{ ...one, end }];
  });
}
