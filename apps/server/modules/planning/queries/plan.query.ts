import { DateTime } from 'luxon';
import {
  keptAssignments,
  whyNoPlace,
  type Explanation,
  type LateChain,
  type PlanExplanation,
  type Wait,
} from '#libs/plan';
import type {
  PlanLateResponse,
  PlanLateStepResponse,
  PlanNotPlannedResponse,
  PlanOverduePartResponse,
  PlanResponse,
  PlanWaitResponse,
  PlanWorkResponse,
} from '../dto/plan.response.js';
import { withNames } from '../loading/names.js';
import { noPlaceWords } from '../loading/no-place-words.js';
import type { PlannedWorkOrder, ShopPlan, StoredPlace } from '../loading/shop-plan.js';
import type { RunNow } from './run-now.query.js';

/** The plan as it is stored, with work under way as it is now. */
export const storedPlan = ({ problem }: ShopPlan) => ({
  assignments: keptAssignments(problem),
  unplaced: [],
});

/** What people read of the plan: each place with why it starts no earlier, the promises that do not hold, the rest. */
export function planPage(shop: ShopPlan, why: PlanExplanation, run: RunNow): PlanResponse {
  const explained = new Map(why.operations.map((one) => [one.operation, one]));
  const planned = [...shop.workOrders.values()].flatMap((work) => {
    const place = shop.assignmentOf.get(work.id);
    const found = explained.get(work.id);
    return place === undefined || found === undefined ? [] : [workResponse(shop, work, place, found)];
  });
  const isPlanned = new Set(planned.map(({ workOrderId }) => workOrderId));
  const notPlanned = notPlannedOf(shop, isPlanned);
  const ends = new Map(why.late.map((chain) => [chain.repairOrder, chain]));
  return {
    timeZone: shop.horizon.timeZone,
    now: shop.horizon.instantOf(shop.horizon.now).toISOString(),
    mode: shop.mode,
    planned: planned.sort((a, b) =>
      a.startsAt < b.startsAt ? -1 : a.startsAt > b.startsAt ? 1 : a.number - b.number,
    ),
    late: latePromises(shop, ends, notPlanned),
    notPlanned,
    overdueParts: overdueParts(shop),
    ...run,
    notes: [...shop.notes],
  };
}

function workResponse(
  shop: ShopPlan,
  work: PlannedWorkOrder,
  place: StoredPlace,
  found: Explanation,
): PlanWorkResponse {
  const { horizon, names } = shop;
  const name = (id: string): string => names.get(id) ?? '';
  const expected = shop.problem.repairOrders
    .find(({ id }) => id === work.repairOrderId)
    ?.operations.find(({ id }) => id === work.id)?.started;
  return {
    ...{ workOrderId: work.id, number: work.number, title: work.title, repairOrderId: work.repairOrderId },
    vehicle: { label: work.vehicleLabel, plate: work.plate },
    ...{ assignmentId: place.assignmentId, version: place.version },
    ...{ bayId: place.bayId, bayName: name(place.bayId) },
    ...{ technicianId: place.technicianId, technicianName: name(place.technicianId) },
    tools: place.tools.map(({ toolId, unit }) => ({ toolId, name: name(toolId), unit })),
    ...{ startsAt: place.startsAt.toISOString(), endsAt: place.endsAt.toISOString() },
    bayUntil: place.bayUntil?.toISOString() ?? null,
    expectedEndsAt: (expected == null ? place.endsAt : horizon.instantOf(expected.end)).toISOString(),
    ...{ isOnTheClock: work.isOnTheClock, isPinned: place.isPinned },
    madeBy: place.planRunId === null ? 'person' : 'plan',
    waits: found.waits.map((wait): PlanWaitResponse => ({
      ...{ for: wait.for, until: horizon.instantOf(wait.until).toISOString(), isOnly: wait.isOnly },
      words: wordsOf(shop, work.id, wait),
      remedy: withNames(wait.remedy, names),
    })),
  };
}

/** What is waited for, in words; parts by their names, which the planner does not know. */
function wordsOf({ workOrders, names }: ShopPlan, operation: string, wait: Wait): string {
  const parts = wait.for === 'parts' ? (workOrders.get(operation)?.partsOut ?? []) : [];
  return parts.length === 0 ? withNames(wait.words, names) : `It waits for ${parts.join(', ')}.`;
}

function notPlannedOf(shop: ShopPlan, isPlanned: ReadonlySet<string>): PlanNotPlannedResponse[] {
  const reasons = new Map(shop.notPlannable.map(({ workOrderId, why }) => [workOrderId, why]));
  const orders = new Map(shop.problem.repairOrders.map((order) => [order.id, order]));
  return [...shop.workOrders.values()].flatMap((work) => {
    if (isPlanned.has(work.id)) return [];
    const order = orders.get(work.repairOrderId);
    const operations = order?.operations.filter(({ id }) => id === work.id) ?? [];
    const why =
      reasons.get(work.id) ??
      (work.isOnTheClock || order === undefined
        ? 'It is on the clock, and nobody has said in which bay its vehicle stands.'
        : noPlaceYet(shop, { ...order, operations }));
    const { id: workOrderId, number, title, repairOrderId } = work;
    return [{ workOrderId, number, title, repairOrderId, why }];
  });
}

function overdueParts({ workOrders, horizon }: ShopPlan): PlanOverduePartResponse[] {
  const now = horizon.instantOf(horizon.now);
  return [...workOrders.values()]
    .flatMap(({ id, number, title, repairOrderId, vehicleLabel, plate, partsExpected }) =>
      partsExpected
        .filter(({ at }) => at <= now)
        .map(({ at, ...item }) => ({
          ...{ ...item, since: at.toISOString(), workOrderId: id, number, title, repairOrderId },
          vehicle: { label: vehicleLabel, plate },
        })),
    )
    .sort((a, b) => (a.since < b.since ? -1 : a.since > b.since ? 1 : a.number - b.number));
}

function noPlaceYet(shop: ShopPlan, order: ShopPlan['problem']['repairOrders'][number]): string {
  const why = whyNoPlace(shop.problem, order);
  // Work that is only new may still get a place where it is pinned, or with whoever holds it.
  const isSure = why.reason === 'pinned' ? why.isSure === true : why.reason !== 'no-room';
  if (isSure) return noPlaceWords(why, shop.names, saidMinute(shop));
  return shop.mode === 'by-hand' ? 'Nobody has given it a place.' : 'It has no place yet.';
}

const saidMinute =
  ({ horizon }: ShopPlan) =>
  (minute: number): string =>
    DateTime.fromJSDate(horizon.instantOf(minute), { zone: horizon.timeZone }).toFormat('yyyy-MM-dd HH:mm');

/**
 * Promises that the stored places break, and those that have passed or are bound to because work of theirs has no place:
 * then nobody knows when the vehicle is ready, and it is late from its promise on.
 */
function latePromises(
  shop: ShopPlan,
  chains: ReadonlyMap<string, LateChain>,
  notPlanned: readonly PlanNotPlannedResponse[],
): PlanLateResponse[] {
  const works = [...shop.workOrders.values()];
  const late = new Map<string, PlanLateResponse>();
  for (const work of works) {
    const { promisedAt, repairOrderId } = work;
    if (promisedAt === null || late.has(repairOrderId)) continue;
    const chain = chains.get(repairOrderId);
    const open = notPlanned.filter((one) => one.repairOrderId === repairOrderId);
    const passed = shop.horizon.now - shop.horizon.minuteOf(promisedAt);
    if (chain === undefined && (open.length === 0 || passed <= 0)) continue;
    const byPlan = chain === undefined ? 0 : chain.ready - chain.promised;
    late.set(repairOrderId, {
      ...{ repairOrderId, number: work.repairOrderNumber },
      vehicle: { label: work.vehicleLabel, plate: work.plate },
      promisedAt: promisedAt.toISOString(),
      readyAt:
        chain === undefined || open.length > 0 ? null : shop.horizon.instantOf(chain.ready).toISOString(),
      minutesLate: Math.max(byPlan, passed, 0),
      steps: [...open.map(unplannedStep), ...stepsOf(shop, chain)],
    });
  }
  return [...late.values()].sort((a, b) => b.minutesLate - a.minutesLate || a.number - b.number);
}

const unplannedStep = ({
  workOrderId,
  number,
  title,
  why,
}: PlanNotPlannedResponse): PlanLateStepResponse => ({
  ...{ workOrderId, workOrder: `Work order ${number} · ${title}`, words: why, remedy: null, until: null },
});

function stepsOf(shop: ShopPlan, chain: LateChain | undefined): PlanLateStepResponse[] {
  return (chain?.steps ?? []).map(({ operation, wait }) => ({
    workOrderId: shop.workOrders.has(operation) ? operation : null,
    workOrder: shop.names.get(operation) ?? 'Other work',
    words: wordsOf(shop, operation, wait),
    remedy: withNames(wait.remedy, shop.names),
    until: TIMELESS.has(wait.for) ? null : shop.horizon.instantOf(wait.until).toISOString(),
  }));
}

/** What is told of these is no end of something that is waited for: their time is the work's own start. */
const TIMELESS: ReadonlySet<string> = new Set(['now', 'started', 'pin', 'plan']);
