import type { Period, PlanAssignment, PlanOperation } from '#libs/plan';
import { teardownsOf } from '#libs/schedule';
import type { Tx } from '../../../platform/database/tx.js';
import { floorCalendar, type FloorCalendar } from '../../floor/index.js';
import { workOrderFacts, type WorkOrderFactsRow } from '../../work-orders/index.js';
import { USUAL_SETTINGS } from '../data/usual-settings.js';
import { contributed, type Contributed } from './contributed.js';
import { isHeldOperation, nobodyFor } from './begun-work.js';
import { horizonFrom, minutesOfPeriods } from './minutes.js';
import { namesOf } from './names.js';
import { Rosters } from './operation-of.js';
import { planFacts, type PlanFacts } from './plan-facts.query.js';
import { expectedItems } from './overdue.js';
import { openTeardowns, partsOut, sortWork } from './plannable.js';
import { operationOfPlace, previousOf, storedPlaces } from './stored-places.js';
import { resourcesOf, unitId, withoutShifts, type Named, type Taken } from './resources.js';
import type { FinishedPlace, PlanContributor, PlanHorizon, ShopPlan } from './shop-plan.js';
import { workOfShop } from './work-of-shop.js';

const DAY_MS = 86_400_000;

/**
 * The shop's open work as a problem for the planner, as it is at the transaction's time, with what leads from an answer
 * back to what is stored. Four statements. What a released work order is in the problem:
 *
 * - on the clock: started, by whoever is on the clock, until what is expected to be left is done;
 * - begun and not on the clock, or claimed: done by its holder, at any time; while its car stands apart in its bay;
 * - pinned: where and when a person laid it down, see `pinned`;
 * - anything else: free, and `previous` says where it was.
 *
 * Which work is not in it, and why, see `sortWork`; what is one teardown, see `teardownsOf`.
 */
export async function loadShopPlan(tx: Tx, contributors: readonly PlanContributor[] = []): Promise<ShopPlan> {
  const facts = await planFacts(tx, USUAL_SETTINGS);
  const rows = await workOrderFacts(
    tx,
    'w.withdrawn_at is null and w.checked_at is null and w.finished_at is null',
    [],
  );
  const open = new Set(rows.map(({ id }) => id));
  const reach = reachOf(tx.now, facts, open);
  const calendar = await floorCalendar(tx, { from: new Date(tx.now.getTime() - DAY_MS), to: reach.until });
  const horizon = horizonFrom(reach.earliest, tx.now, reach.until, calendar.timeZone);
  const others = await contributed(tx, horizon, contributors);
  return shopPlan({ tx, facts, rows, calendar, horizon, others, open });
}

interface Loaded {
  readonly tx: Pick<Tx, 'now'>;
  readonly facts: PlanFacts;
  readonly rows: readonly WorkOrderFactsRow[];
  readonly calendar: FloorCalendar;
  readonly horizon: PlanHorizon;
  readonly others: Contributed;
  readonly open: ReadonlySet<string>;
}

function shopPlan(loaded: Loaded): ShopPlan {
  const { tx, facts, rows, calendar, horizon, others } = loaded;
  const stored = storedPlaces(facts.places, horizon);
  const placeOf = new Map(facts.places.map((place) => [operationOfPlace(place), place]));
  const teardowns = openTeardowns(facts.work, teardownsOf(facts.shared.map((work) => ({ work }))), (id) =>
    placeOf.get(id),
  );
  const sorted = sortWork(rows, facts, teardowns, { now: tx.now, timeZone: horizon.timeZone });
  const rosters = new Rosters(
    calendar.technicians.map(({ id, works }) => [id, minutesOfPeriods(horizon, works)]),
    facts.absences,
    horizon,
  );
  const work = workOfShop({ facts, rows, calendar, horizon, teardowns, sorted, rosters, places: stored });
  const repairOrders = [...work.repairOrders, ...others.repairOrders];
  const operations = repairOrders.flatMap((order) => order.operations);
  const held = operations.filter(({ id }) => isHeldOperation(id));
  const nobody = held.map(({ id, pin }, k) => nobodyFor(id, pin?.bay ?? null, horizon.until + k));
  const previous = previousOf(operations, new Map([...stored, ...others.places]));
  const named = namedBy(operations, previous);
  const taken = takenBeside(loaded, operations);
  const resources = resourcesOf(horizon, calendar, facts, rosters.of, named, taken);
  const { weights, frozenMinutes, mode } = facts.settings;
  return {
    problem: {
      now: horizon.now,
      frozenUntil: horizon.now + frozenMinutes,
      ...resources,
      technicians: [...resources.technicians, ...nobody.map(({ technician }) => technician)],
      repairOrders,
      previous: [...previous, ...nobody.map((one) => one.previous)],
      weights,
    },
    ...{ horizon, mode },
    workOrders: new Map(rows.map((row) => [row.id, labelOf(row)])),
    assignmentOf: new Map([...stored, ...others.places]),
    finished: finishedPlaces(loaded, teardowns, operations),
    begunAt: work.begunAt,
    names: new Map([...namesOf(rows, facts, calendar, teardowns), ...others.names]),
    notPlannable: rows.flatMap(({ id, number }) => {
      const why = sorted.why.get(id);
      return why === undefined ? [] : [{ workOrderId: id, number, why }];
    }),
    notes: [...withoutShifts(calendar), ...work.notes, ...others.notes],
  };
}

/** From the earliest thing that is still going on to the end of the days that are planned, and of what is laid down already. */
function reachOf(now: Date, facts: PlanFacts, open: ReadonlySet<string>): { earliest: Date; until: Date } {
  const places = facts.places.filter(({ workOrderId }) => workOrderId === null || open.has(workOrderId));
  const begun = facts.work.flatMap(({ openEntry }) =>
    openEntry === null ? [] : [Date.parse(openEntry.startedAt)],
  );
  const earliest = Math.min(now.getTime(), ...begun, ...places.map(({ startsAt }) => Date.parse(startsAt)));
  const last = Math.max(
    now.getTime() + facts.settings.horizonDays * DAY_MS,
    ...places.map(({ endsAt }) => Date.parse(endsAt)),
  );
  // Whole days, so that the end moves once a day and not with every look.
  return { earliest: new Date(earliest), until: new Date((Math.floor(last / DAY_MS) + 1) * DAY_MS) };
}

/** Everything that the work names: it must be in the problem, whether it is still on the floor or not. */
function namedBy(operations: readonly PlanOperation[], previous: readonly PlanAssignment[]): Named {
  const places = [...operations.flatMap(({ started }) => started ?? []), ...previous];
  const pins = operations.flatMap(({ pin }) => pin ?? []);
  const bays = [...places.map(({ bay }) => bay), ...pins.map(({ bay }) => bay ?? null)];
  return {
    technicians: new Set([
      ...places.flatMap(({ technicians }) => technicians),
      ...pins.flatMap(({ technicians }) => technicians ?? []),
    ]),
    bays: new Set(bays.filter((id) => id !== null)),
    tools: new Set(places.flatMap(({ tools }) => tools)),
  };
}

/**
 * Places that still reach over now and are not work of the problem: what is left of the place of work that is done, and
 * whatever a module holds that did not say so. Open work that is not plannable takes nothing: its
 * place is given up, unless a person laid it down.
 */
function takenBeside({ facts, horizon, open }: Loaded, operations: readonly PlanOperation[]): Taken {
  const inProblem = new Set(operations.map(({ id }) => id));
  const taken = new Map<string, Period[]>();
  const take = (id: string, from: number, to: number): void => {
    if (from < to) taken.set(id, [...(taken.get(id) ?? []), [from, to]]);
  };
  for (const place of facts.places) {
    const { workOrderId, startsAt, endsAt, bayUntil } = place;
    const isGivenUp = workOrderId !== null && open.has(workOrderId) && !place.isPinned;
    if (inProblem.has(operationOfPlace(place)) || isGivenUp) continue;
    const from = Math.max(0, horizon.minuteOf(new Date(startsAt)));
    const to = horizon.minuteOf(new Date(endsAt));
    if (to <= horizon.now) continue;
    const bayTo = workOrderId === null && bayUntil !== null ? horizon.minuteOf(new Date(bayUntil)) : to;
    take(place.technicianId, from, to);
    take(place.bayId, from, bayTo);
    for (const { toolId, unit } of place.tools) take(unitId(toolId, unit), from, to);
  }
  return taken;
}

/** Places of finished work whose bay is still kept, or must be kept again: the car stands apart for what is left. */
function finishedPlaces(
  { facts, open, tx }: Loaded,
  teardowns: ReturnType<typeof openTeardowns>,
  operations: readonly PlanOperation[],
): FinishedPlace[] {
  const wordOf = new Map(
    teardowns.flatMap(({ word, members }) => members.map(({ id }) => [id, word] as const)),
  );
  const orderOf = new Map(facts.work.map(({ id, repairOrderId }) => [id, repairOrderId]));
  const standing = new Map(
    operations.flatMap(({ teardown, started }) =>
      teardown == null || started?.bay == null ? [] : [[teardown, started.bay] as const],
    ),
  );
  return facts.places.flatMap(({ workOrderId, bayId, bayUntil }) => {
    if (workOrderId === null || open.has(workOrderId)) return [];
    const word = wordOf.get(workOrderId) ?? '';
    const teardown = standing.get(word) === bayId ? word : null;
    const isKept = bayUntil !== null && Date.parse(bayUntil) > tx.now.getTime();
    return teardown === null && !isKept
      ? []
      : [{ workOrderId, repairOrderId: orderOf.get(workOrderId) ?? '', teardown }];
  });
}

const labelOf = (row: WorkOrderFactsRow) => ({
  ...{ id: row.id, number: row.number, title: row.title },
  ...{ repairOrderId: row.repairOrderId, repairOrderNumber: row.repairOrderNumber },
  ...{ vehicleLabel: row.vehicleLabel, plate: row.plate },
  ...{ promisedAt: row.promisedAt, isOnTheClock: row.isOnTheClock },
  ...{ partsOut: partsOut(row), partsExpected: expectedItems(row) },
});
