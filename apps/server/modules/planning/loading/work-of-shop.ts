import type { PlanOperation, PlanRepairOrder } from '#libs/plan';
import type { FloorCalendar } from '../../floor/index.js';
import type { WorkOrderFactsRow } from '../../work-orders/index.js';
import { InUse, isHeldOperation, running, standingCar, type StandingCar } from './begun-work.js';
import { operationOf, pinned, type Rosters, type WorkInView } from './operation-of.js';
import type { PlanFacts, WorkFacts } from './plan-facts.query.js';
import type { OpenTeardown, Sorted } from './plannable.js';
import type { PlanHorizon, PlanNote, StoredPlace } from './shop-plan.js';

export interface WorkOfShop {
  readonly repairOrders: readonly PlanRepairOrder[];
  readonly begunAt: ReadonlyMap<string, Date>;
  readonly notes: readonly PlanNote[];
}

export interface ShopInView {
  readonly facts: PlanFacts;
  readonly rows: readonly WorkOrderFactsRow[];
  readonly calendar: FloorCalendar;
  readonly horizon: PlanHorizon;
  readonly teardowns: readonly OpenTeardown[];
  readonly sorted: Sorted;
  readonly rosters: Rosters;
  readonly places: ReadonlyMap<string, StoredPlace>;
}

/** The open work that is plannable, by repair order, with what keeps the bays of cars that stand apart. */
export function workOfShop(shop: ShopInView): WorkOfShop {
  const { horizon, rows, sorted, rosters } = shop;
  const seen = inView(shop);
  const inUse = new InUse();
  const notes: PlanNote[] = [];
  const begunAt = new Map<string, Date>();
  const operations = new Map<string, PlanOperation>();
  const unitsOf = (toolId: string): number => shop.calendar.tools.filter(({ id }) => id === toolId).length;
  const open = new Set(rows.map(({ id }) => id));
  const past = shop.facts.places.filter(({ workOrderId }) => workOrderId === null || !open.has(workOrderId));
  const isInPlan = (id: string): boolean => sorted.plannable.has(id);
  const isOn = ({ work }: WorkInView): boolean => work.openEntry !== null;
  // What is on the clock goes first, those in whose place it is before others: two cars in one bay cannot both be there.
  for (const view of [
    ...seen.filter(isOn).sort(byClaimToBay(horizon)),
    ...seen.filter((one) => !isOn(one)),
  ]) {
    const operation = operationOf(view, isInPlan, horizon);
    if (isOn(view)) {
      const made = running(operation, view, horizon, rosters, inUse, { unitsOf, past });
      operations.set(view.row.id, made.operation);
      if (made.rowFrom !== null) begunAt.set(view.row.id, made.rowFrom);
      notes.push(...made.notes);
    } else {
      const made = pinned(operation, view, arrivalOf(view.work, horizon), horizon, rosters);
      operations.set(view.row.id, made.operation);
      notes.push(...made.notes);
    }
  }
  const standing = standingCars(shop, operations, inUse);
  notes.push(...standing.flatMap((car) => car.notes));
  return { repairOrders: ordersOf(rows, shop, operations, standing), begunAt, notes };
}

function inView({ facts, rows, teardowns, sorted, places }: ShopInView): WorkInView[] {
  const workOf = new Map(facts.work.map((one) => [one.id, one]));
  const placeOf = (id: string): StoredPlace | undefined => places.get(id);
  const standing = new Map(teardowns.map(({ word, bayId }) => [word, bayId]));
  const wordOf = new Map(
    teardowns.flatMap(({ word, members }) => members.map(({ id }) => [id, word] as const)),
  );
  return rows.flatMap((row) => {
    const work = workOf.get(row.id);
    if (work === undefined || !sorted.plannable.has(row.id)) return [];
    const teardown = wordOf.get(row.id) ?? null;
    const apartIn = teardown === null ? null : (standing.get(teardown) ?? null);
    return [{ row, work, place: placeOf(row.id) ?? null, teardown, apartIn }];
  });
}

/** Those whose place reaches over now first, then in the order in which they began. */
const byClaimToBay =
  ({ now }: PlanHorizon) =>
  (a: WorkInView, b: WorkInView): number => {
    const isThere = ({ place }: WorkInView): number =>
      place !== null && place.start <= now && now <= place.end ? 0 : 1;
    const began = ({ work }: WorkInView): number => Date.parse(work.openEntry?.startedAt ?? '');
    return isThere(a) - isThere(b) || began(a) - began(b) || (a.row.id < b.row.id ? -1 : 1);
  };

function standingCars(
  { teardowns, horizon, sorted, facts }: ShopInView,
  operations: ReadonlyMap<string, PlanOperation>,
  inUse: InUse,
): StandingCar[] {
  const before = new Map<string, number>();
  const bayName = new Map(facts.bays.map(({ id, name }) => [id, name]));
  for (const { id, repairOrderId } of facts.work) {
    const started = operations.get(id)?.started;
    const known = before.get(repairOrderId) ?? horizon.now;
    if (started != null) before.set(repairOrderId, Math.min(known, started.start));
  }
  return teardowns.flatMap((teardown) => {
    const { repairOrderId, members, bayId } = teardown;
    const runs = members.some(({ id }) => operations.get(id)?.started?.bay != null);
    const isStuck = members.some(({ id, finishedAt }) => finishedAt === null && sorted.why.has(id));
    if (bayId === null || (runs && !isStuck)) return [];
    const isFree = inUse.takeBay(bayId, repairOrderId) || inUse.has(bayId, repairOrderId);
    if (!isFree) return [];
    const end = before.get(repairOrderId) ?? horizon.now;
    before.set(repairOrderId, end - 1);
    const needs = { isHeld: runs, isStuck, bayName: bayName.get(bayId) ?? 'A bay' };
    return [standingCar(teardown, bayId, end, needs)];
  });
}

function arrivalOf({ droppedOffAt }: WorkFacts, { now, minuteOf }: PlanHorizon): number | null {
  const arrives = minuteOf(new Date(droppedOffAt));
  return arrives > now ? arrives : null;
}

function ordersOf(
  rows: readonly WorkOrderFactsRow[],
  { facts, horizon }: ShopInView,
  operations: ReadonlyMap<string, PlanOperation>,
  standing: readonly StandingCar[],
): PlanRepairOrder[] {
  const workOf = new Map(facts.work.map((one) => [one.id, one]));
  const groups = new Map<string, WorkOrderFactsRow[]>();
  for (const row of rows) groups.set(row.repairOrderId, [...(groups.get(row.repairOrderId) ?? []), row]);
  return [...groups].flatMap(([id, own]) => {
    const beside = standing.filter(({ repairOrderId }) => repairOrderId === id);
    const work = own.flatMap((row) => operations.get(row.id) ?? []);
    const [first] = own;
    if (first === undefined || work.length + beside.length === 0) return [];
    const known = workOf.get(first.id);
    // With work that nobody can date, nobody can say when the car is ready either.
    const isUndated = beside.some((car) => car.operations.some((one) => isHeldOperation(one.id)));
    return [
      {
        id,
        promised:
          first.promisedAt === null || isUndated ? null : Math.floor(horizon.minuteOf(first.promisedAt)),
        weight: 1,
        arrives: known === undefined ? null : arrivalOf(known, horizon),
        vehicle: { weightKg: first.weightKg, heightMm: first.heightMm },
        operations: [...beside.flatMap((car) => car.operations), ...work],
      },
    ];
  });
}
