import { LaterPlaces } from './later-places.js';
import type { Moves } from './later-places.js';
import type { PlanAssignment, PlanOperation, PlanProblem, PlanRepairOrder } from './plan-problem.js';
import type { Plan } from './plan-result.js';
import { standingApart } from './standing-apart.js';
import type { StandingApart } from './standing-apart.js';

interface Shop {
  readonly at: Map<string, PlanAssignment>;
  readonly previous: ReadonlyMap<string, PlanAssignment>;
  readonly places: LaterPlaces;
}

/** An operation with its place. */
interface Member {
  readonly operation: PlanOperation;
  readonly is: PlanAssignment;
}

/**
 * The same plan with less bay time blocked: what takes a car apart begins no sooner than it must where the car would only
 * wait afterwards. Operations go to the right with the people, the bay and the tools that they have; nothing becomes
 * ready later, nothing that stands where the previous plan has it moves, and no place gets further from there. Done
 * twice it is the same as once.
 */
export function shortenStays(problem: PlanProblem, plan: Plan): Plan {
  const shop: Shop = {
    at: new Map(plan.assignments.map((one) => [one.operation, one])),
    previous: new Map((problem.previous ?? []).map((one) => [one.operation, one])),
    places: new LaterPlaces(problem, plan.assignments),
  };
  const teardowns = problem.repairOrders.flatMap((order) =>
    [...teardownsOf(order)].map((word) => ({ order, word, seen: -1 })),
  );
  // What moves may make room for what waits before it, so until nothing moves any more.
  for (let isMoved = true; isMoved;) {
    isMoved = false;
    for (const one of teardowns) {
      if (isAsSeen(shop, one.order, one.seen)) continue;
      one.seen = shop.places.moved;
      isMoved = shorten(shop, one.order, one.word) || isMoved;
    }
  }
  return { ...plan, assignments: plan.assignments.map((one) => shop.at.get(one.operation) ?? one) };
}

/** Whether all that a repair order's work depends on is as it was after so many moves, so that nothing comes of it. */
const isAsSeen = ({ at, places }: Shop, { operations }: PlanRepairOrder, seen: number): boolean =>
  seen >= 0 &&
  operations.every(({ id }) => {
    const is = at.get(id);
    return is === undefined || places.isAsAfter(seen, is);
  });

const teardownsOf = ({ operations }: PlanRepairOrder): Set<string> =>
  new Set(operations.flatMap(({ teardown, bay }) => (teardown != null && bay != null ? [teardown] : [])));

/** Moves as few operations of one teardown as make its stay shortest; false when none is worth it. */
function shorten({ at, previous, places }: Shop, order: PlanRepairOrder, teardown: string): boolean {
  const members = placedOf(at, order);
  const mates = members.filter(({ operation }) => operation.teardown === teardown && operation.bay != null);
  const before = standingOf(members);
  if (mates.length < 2 || before.blocked === 0) return false;
  const from = Math.min(...mates.map(({ is }) => is.start));
  const to = Math.max(...mates.map(({ is }) => is.end));
  const inside = members.filter(({ is }) => is.start >= from && is.end <= to);
  let best: { moves: Moves; after: StandingApart } | null = null;
  for (let count = 1; count <= inside.length; count++) {
    const moves = toTheRight({ places, previous, members }, inside.slice(0, count), to);
    const after = standingOf(moved(members, moves));
    const isShorter = after.minutes < before.minutes && after.blocked < (best?.after ?? before).blocked;
    if (isShorter) best = { moves, after };
  }
  if (best === null) return false;
  for (const [id, is] of withoutNeedless(members, best.moves, best.after)) {
    places.enter(is);
    at.set(id, is);
  }
  return true;
}

/** What of a repair order has a place, in order of starts. */
const placedOf = (at: Moves, { operations }: PlanRepairOrder): Member[] =>
  operations
    .flatMap((operation): Member[] => {
      const is = at.get(operation.id);
      return is === undefined ? [] : [{ operation, is }];
    })
    .sort((a, b) => a.is.start - b.is.start || a.is.end - b.is.end);

const moved = (members: readonly Member[], moves: Moves): Member[] =>
  members.map(({ operation, is }) => ({ operation, is: moves.get(operation.id) ?? is }));

interface Ground extends Pick<Shop, 'places' | 'previous'> {
  /** All of the repair order that has a place. */
  readonly members: readonly Member[];
}

/**
 * Each as far to the right as it can go within the stay, the last first. In the stay no other car can be in the bay, so
 * the bay needs no look. What makes the car ready is not touched.
 */
function toTheRight({ places, previous, members }: Ground, wanted: readonly Member[], to: number): Moves {
  const moves = new Map<string, PlanAssignment>();
  const ready = Math.max(...members.map(({ is }) => is.end));
  for (const { operation, is } of [...wanted].reverse()) {
    if (operation.started != null || operation.pin?.start != null || is.end === ready) continue;
    const rest = moved(
      members.filter((one) => one.operation !== operation),
      moves,
    );
    const next = rest.filter((one) => one.operation.after?.includes(operation.id) === true);
    const limit = Math.min(to, ...next.map((one) => one.is.start));
    // A car is worked on in one place at a time.
    const apart = is.bay === null ? [] : rest.flatMap((one) => (one.is.bay === null ? [] : [one.is]));
    const later = places.latest(operation, is, limit, apart, moves);
    if (later !== null && isNoFurther(previous.get(is.operation), is, later)) moves.set(operation.id, later);
  }
  return moves;
}

/** Whether the previous plan's place, if there is one, is as near as before. */
const isNoFurther = (was: PlanAssignment | undefined, is: PlanAssignment, later: PlanAssignment): boolean =>
  was === undefined || Math.abs(later.start - was.start) <= Math.abs(is.start - was.start);

/** The moves without those that gain nothing: staying needs no reason. */
function withoutNeedless(
  members: readonly Member[],
  moves: Moves,
  { blocked, minutes }: StandingApart,
): Moves {
  let kept = moves;
  for (const id of moves.keys()) {
    const fewer = new Map([...kept].filter(([other]) => other !== id));
    const rest = moved(members, fewer);
    const after = standingOf(rest);
    if (after.blocked <= blocked && after.minutes <= minutes && isInOrder(rest)) kept = fewer;
  }
  return kept;
}

/** Whether a repair order's operations follow each other as they must and share nobody, nothing and no car at once. */
const isInOrder = (members: readonly Member[]): boolean =>
  members.every(({ operation, is }) =>
    members.every((other) => {
      if (other.operation === operation) return true;
      if (operation.after?.includes(other.operation.id) === true) return other.is.end <= is.start;
      return other.is.end <= is.start || is.end <= other.is.start || !haveShared(is, other.is);
    }),
  );

const haveShared = (one: PlanAssignment, other: PlanAssignment): boolean =>
  (one.bay !== null && other.bay !== null) ||
  one.technicians.some((id) => other.technicians.includes(id)) ||
  one.tools.some((id) => other.tools.includes(id));

const standingOf = (members: readonly Member[]): StandingApart => {
  const at = new Map(members.map(({ operation, is }) => [operation.id, is]));
  return standingApart(
    members.map(({ operation }) => operation),
    (id) => at.get(id),
  );
};
