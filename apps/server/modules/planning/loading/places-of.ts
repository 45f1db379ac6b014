import type { PlanAssignment } from '#libs/plan';
import { apartId, isHeldOperation, wordOfHeld } from './begun-work.js';
import { unitId, unitOf } from './resources.js';
import type { PlannedPlace, ShopPlan, StoredPlace } from './shop-plan.js';

const SHORTEST_MS = 60_000;

/** A place of the plan before it is known how long its car keeps the bay. */
interface Entry {
  readonly place: Omit<PlannedPlace, 'bayUntil'>;
  readonly repairOrder: string;
  readonly teardown: string | null;
  readonly stored: StoredPlace | undefined;
}

/**
 * Assignments of the problem as the rows that they are stored as, in no particular order; with them the places of finished
 * work whose car stands apart. A time that is what it was keeps its instant, seconds included, so that what did not change
 * comes back exactly as it is stored. Work without a bay (on the clock without a place) and what only stands for a car have
 * no row.
 */
export function placesOf(shop: ShopPlan, assignments: readonly PlanAssignment[]): PlannedPlace[] {
  const entries = [...entriesOf(shop, assignments), ...finishedEntries(shop)];
  const holds = new Map(
    assignments.flatMap(({ operation, start }) =>
      isHeldOperation(operation) ? [[wordOfHeld(operation), shop.horizon.instantOf(start)]] : [],
    ),
  );
  return entries.map((entry) => ({ ...entry.place, bayUntil: bayUntil(entry, entries, holds, shop) }));
}

function entriesOf(shop: ShopPlan, assignments: readonly PlanAssignment[]): Entry[] {
  const { horizon, workOrders, assignmentOf, begunAt, problem } = shop;
  const known = new Map(
    problem.repairOrders.flatMap((order) =>
      order.operations.map(({ id, teardown }) => [id, { repairOrder: order.id, teardown: teardown ?? null }]),
    ),
  );
  const oddInstants = oddOf(assignmentOf.values());
  return assignments.flatMap(({ operation, start, end, bay, technicians, tools }): Entry[] => {
    const found = known.get(operation);
    const stored = assignmentOf.get(operation);
    const isWork = workOrders.has(operation);
    if (found === undefined || bay === null || isStandIn(operation)) return [];
    const same = stored !== undefined && isThere(stored, bay, technicians[0], tools) ? stored : undefined;
    const startsAt =
      same?.start === start ? same.startsAt : (begunAt.get(operation) ?? horizon.instantOf(start));
    // Something that stays may begin within the minute in which this ends: then this ends when that begins.
    const wanted = same?.end === end ? same.endsAt : (oddInstants.get(end) ?? horizon.instantOf(end));
    const endsAt = wanted > startsAt ? wanted : new Date(startsAt.getTime() + SHORTEST_MS);
    const place = {
      ...{ operation, workOrderId: isWork ? operation : null, bayId: bay },
      ...{ technicianId: technicians[0] ?? '', startsAt, endsAt, tools: tools.map(unitOf) },
    };
    return [{ place, ...found, stored }];
  });
}

/** Only where bay, technician and tools are the same is it known that the stored seconds are in nobody's way. */
function isThere(
  stored: StoredPlace,
  bay: string,
  technician: string | undefined,
  tools: readonly string[],
): boolean {
  const units = stored.tools.map(({ toolId, unit }) => unitId(toolId, unit));
  return (
    stored.bayId === bay &&
    stored.technicianId === technician &&
    [...units].sort().join() === [...tools].sort().join()
  );
}

/** What stands for a car and is nobody's work. */
const isStandIn = (operation: string): boolean =>
  isHeldOperation(operation) || operation.startsWith(apartId(''));

/** Starts that are not on a whole minute, the earliest by the minute that they have in the problem. */
function oddOf(stored: Iterable<StoredPlace>): Map<number, Date> {
  const odd = new Map<number, Date>();
  for (const { start, startsAt } of stored) {
    const known = odd.get(start);
    if (startsAt.getTime() % 60_000 !== 0 && (known === undefined || startsAt < known))
      odd.set(start, startsAt);
  }
  return odd;
}

function finishedEntries({ finished, assignmentOf }: ShopPlan): Entry[] {
  return finished.flatMap(({ workOrderId, repairOrderId, teardown }) => {
    const stored = assignmentOf.get(workOrderId);
    if (stored === undefined) return [];
    const { bayId, technicianId, startsAt, endsAt, tools } = stored;
    const place = { operation: workOrderId, workOrderId, bayId, technicianId, startsAt, endsAt, tools };
    return [{ place, repairOrder: repairOrderId, teardown, stored }];
  });
}

/**
 * A car that stands apart keeps its bay from one piece of work on it to the next, whatever piece that is; and until the
 * calendars end where what is left has no date. What is over already is not written again.
 */
function bayUntil(
  { place, repairOrder, teardown, stored }: Entry,
  entries: readonly Entry[],
  holds: ReadonlyMap<string, Date>,
  { horizon }: ShopPlan,
): Date | null {
  const now = horizon.instantOf(horizon.now);
  const mine = entries.filter((one) => one.repairOrder === repairOrder && one.place.bayId === place.bayId);
  const words = new Set(
    mine.flatMap((one) =>
      one.teardown !== null && one.place.startsAt <= place.startsAt ? [one.teardown] : [],
    ),
  );
  const later = mine.filter((one) => one.place !== place && one.place.startsAt >= place.endsAt);
  const isApart = later.some((one) => one.teardown !== null && words.has(one.teardown));
  const held = teardown === null ? undefined : holds.get(teardown);
  const next = later.reduce<Date | null>(
    (soonest, { place: { startsAt } }) => (soonest === null || startsAt < soonest ? startsAt : soonest),
    null,
  );
  const until = next !== null && (isApart || held !== undefined) ? next : (held ?? null);
  const wanted = until !== null && until > place.endsAt ? until : null;
  const isOver = (instant: Date | null): boolean => (instant ?? place.endsAt) <= now;
  if (stored !== undefined && place.endsAt <= now && isOver(wanted) && isOver(stored.bayUntil))
    return stored.bayUntil;
  return wanted;
}
