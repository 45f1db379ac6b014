import {
  checkPlan,
  keptAssignments,
  type BrokenRule,
  type PlanAssignment,
  type PlanProblem,
} from '#libs/plan';
import type { ShopPlan } from '../loading/shop-plan.js';

/**
 * What a run found, in a form that outlasts the problem in which it was found: only what is elsewhere than it is stored, in
 * minutes from an instant. It is stored as it is with a proposal.
 */
export interface FoundPlan {
  /** RFC 3339; minute 0 of the places. */
  readonly origin: string;
  readonly places: readonly PlanAssignment[];
  /** Operations whose place is given up. */
  readonly takenOut: readonly string[];
}

const operationsOf = (problem: PlanProblem) => problem.repairOrders.flatMap(({ operations }) => operations);

const previousOf = (problem: PlanProblem): Map<string, PlanAssignment> =>
  new Map((problem.previous ?? []).map((was) => [was.operation, was]));

const startedIn = (problem: PlanProblem): Set<string> =>
  new Set(operationsOf(problem).flatMap(({ id, started }) => (started == null ? [] : [id])));

export function foundIn(shop: ShopPlan, assignments: readonly PlanAssignment[]): FoundPlan {
  const previous = previousOf(shop.problem);
  const started = startedIn(shop.problem);
  const placed = new Set(assignments.map(({ operation }) => operation));
  const givenUp = shop.notPlannable.flatMap(({ workOrderId }) =>
    shop.assignmentOf.get(workOrderId)?.isPinned === false ? [workOrderId] : [],
  );
  return {
    origin: shop.horizon.origin.toISOString(),
    places: assignments.filter((is) => !started.has(is.operation) && !isSame(previous.get(is.operation), is)),
    takenOut: [
      ...[...previous.keys()].filter((id) => !placed.has(id)),
      ...givenUp,
      ...nowhere(shop).filter((id) => shop.assignmentOf.has(id)),
    ],
  };
}

/**
 * Work on the clock of which nobody knows where its car stands: another one is in the bay that it should have. What is
 * left of its place would keep the bay from others for nothing.
 */
export const nowhere = ({ problem, workOrders }: ShopPlan): string[] =>
  operationsOf(problem).flatMap(({ id, started }) =>
    started != null && started.bay === null && workOrders.has(id) ? [id] : [],
  );

const isSame = (was: PlanAssignment | undefined, is: PlanAssignment): boolean =>
  was !== undefined &&
  was.start === is.start &&
  was.end === is.end &&
  was.bay === is.bay &&
  was.technicians.join('\n') === is.technicians.join('\n') &&
  [...was.tools].sort().join('\n') === [...is.tools].sort().join('\n');

export const isEmpty = ({ places, takenOut }: FoundPlan): boolean => places.length + takenOut.length === 0;

/** The whole plan that comes of it on the floor as it is now: what is not among its places stays where it is stored. */
export function composed(shop: ShopPlan, found: FoundPlan): PlanAssignment[] {
  const shift = Math.round((Date.parse(found.origin) - shop.horizon.origin.getTime()) / 60_000);
  const moved = new Map(
    found.places.map((place) => [
      place.operation,
      { ...place, start: place.start + shift, end: place.end + shift },
    ]),
  );
  const previous = previousOf(shop.problem);
  const takenOut = new Set(found.takenOut);
  return operationsOf(shop.problem).flatMap(({ id, started }): PlanAssignment[] => {
    if (started != null) return [{ operation: id, ...started }];
    if (takenOut.has(id)) return [];
    const place = moved.get(id) ?? previous.get(id);
    return place === undefined ? [] : [place];
  });
}

/** A place whose start has only just passed can still be given: nobody begins by the minute. Common sense, no source. */
export const GRACE_MINUTES = 10;

/**
 * Rules that it would break on the floor as it is now and that are not broken already without it. What has come in the
 * meantime and has no place is no reason against it: another run is on its way to give it one.
 */
export function rulesBrokenBy(shop: ShopPlan, found: FoundPlan): BrokenRule[] {
  const touched = new Set([...found.places.map(({ operation }) => operation), ...found.takenOut]);
  const problem = { ...shop.problem, now: Math.max(0, shop.problem.now - GRACE_MINUTES) };
  const before = new Set(brokenIn(problem, keptAssignments(shop.problem)).map(keyOf));
  return brokenIn(problem, composed(shop, found)).filter(
    (rule) => rule.operations.some((id) => touched.has(id)) || !before.has(keyOf(rule)),
  );
}

function brokenIn(problem: PlanProblem, assignments: readonly PlanAssignment[]): BrokenRule[] {
  const placed = new Set(assignments.map(({ operation }) => operation));
  const unplaced = operationsOf(problem).flatMap(({ id }) =>
    placed.has(id) ? [] : [{ operation: id, why: '' }],
  );
  return checkPlan(problem, { assignments, unplaced });
}

const keyOf = ({ rule, operations }: BrokenRule): string => `${rule} ${[...operations].sort().join(' ')}`;
