import { fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';
import { aroundPlan } from './around-plan.js';
import type { PlanProblemFault } from './check-problem.js';
import { diffPlans } from './diff-plans.js';
import type { PlanChange } from './diff-plans.js';
import { plan } from './plan.js';
import type { PlanAssignment, PlanProblem, PlanRepairOrder } from './plan-problem.js';
import type { Plan, PlanEffort } from './plan-result.js';
import { readyP80 } from './ready-spread.js';
import { whyNoPlace } from './why-no-place.js';

/** One answer to "when?". */
export interface Offer {
  /** When the car is to be brought. */
  readonly arrives: number;
  /** When the car is first worked on, and in which bay it is first. */
  readonly start: number;
  readonly bay: string | null;
  readonly ready: number;
  /** Kept in four of five cases. */
  readonly readyP80: number;
  readonly assignments: readonly PlanAssignment[];
  /** What of the plan would have to move; nothing for an offer between what is planned. */
  readonly moves: readonly PlanChange[];
  /** Weighted minutes by which others would be later than planned now. */
  readonly latenessAdded: number;
}

export interface OfferWish {
  /** Times at which the car could be brought, in order; left out, as it is in the repair order. */
  readonly arrivals?: readonly number[];
  /** Tries moving others as well. */
  readonly mayMove?: boolean;
}

/** One car between what is planned is soon searched through: more looks found nothing better in shops of 60 orders. */
const LOOKS_EACH = 300;
/** Of the time, for the one offer that moves others: there all of the work is searched. */
const MOVING_SHARE = 0.6;

/**
 * When a car that may come could be worked on and ready: for each time at which it could be brought the earliest place
 * between what is planned, and, when wished, the earliest if others move. The plan stays as it is.
 */
export function offers(
  problem: PlanProblem,
  current: Plan,
  newOrder: PlanRepairOrder,
  effort: PlanEffort,
  wish: OfferWish = {},
): Result<Offer[], PlanProblemFault | Fault<'no-place'>> {
  const arrivals = wish.arrivals ?? [newOrder.arrives ?? problem.now];
  const between = {
    ...effort,
    timeLimitMs: ((1 - MOVING_SHARE) * effort.timeLimitMs) / arrivals.length,
    lookLimit: Math.min(effort.lookLimit ?? Infinity, LOOKS_EACH * newOrder.operations.length),
  };
  const found: Offer[] = [];
  for (const arrives of arrivals) {
    const order = { ...newOrder, arrives: Math.max(arrives, newOrder.arrives ?? 0), promised: null };
    const made = plan(aroundPlan(problem, current.assignments, [order]), between);
    if (!made.ok) return made;
    if (made.value.unplaced.length > 0) continue;
    const offer = twinOf(found, made.value.assignments);
    if (offer !== undefined) found[found.indexOf(offer)] = { ...offer, arrives: order.arrives };
    else found.push(offerOf({ problem, current, order, seed: effort.seed }, made.value.assignments, []));
  }
  if (wish.mayMove === true) {
    const moving = { ...effort, timeLimitMs: MOVING_SHARE * effort.timeLimitMs };
    const made = withMoves(problem, current, newOrder, moving);
    if (!made.ok) return made;
    if (made.value !== null) found.push(made.value);
  }
  if (found.length === 0)
    return fail('no-place', 'There is no place for this work while the calendars last.', {
      facts: { why: whyNoPlace(problem, newOrder) },
    });
  const distinct = new Map(
    found.map((offer) => [`${offer.start} ${offer.ready} ${offer.moves.length}`, offer]),
  );
  return ok([...distinct.values()].sort((a, b) => a.ready - b.ready || a.moves.length - b.moves.length));
}

/** The same places, however early the car is brought for them: then it may as well come later. */
function twinOf(found: readonly Offer[], mine: readonly PlanAssignment[]): Offer | undefined {
  const key = (assignments: readonly PlanAssignment[]): string =>
    assignments
      .map(({ operation, start, bay, technicians }) => [operation, start, bay, ...technicians].join(' '))
      .sort()
      .join('\n');
  return found.find(({ assignments }) => key(assignments) === key(mine));
}

interface Asked {
  readonly problem: PlanProblem;
  readonly current: Plan;
  readonly order: PlanRepairOrder;
  readonly seed: number;
}

function offerOf(
  { problem, current, order, seed }: Asked,
  mine: readonly PlanAssignment[],
  moves: PlanChange[],
  all?: readonly PlanAssignment[],
): Offer {
  const whole = { ...problem, repairOrders: [...problem.repairOrders, order] };
  const assignments = [...mine].sort((a, b) => a.start - b.start);
  const everybody = all ?? [...current.assignments, ...mine];
  return {
    arrives: Math.max(problem.now, order.arrives ?? 0),
    start: assignments[0]?.start ?? 0,
    bay: assignments.find(({ bay }) => bay !== null)?.bay ?? null,
    ready: Math.max(...assignments.map(({ end }) => end)),
    readyP80: readyP80(whole, everybody, order.id, seed),
    ...{ assignments, moves },
    latenessAdded: latenessOf(problem, everybody) - latenessOf(problem, current.assignments),
  };
}

function latenessOf({ repairOrders }: PlanProblem, assignments: readonly PlanAssignment[]): number {
  const ends = new Map(assignments.map(({ operation, end }) => [operation, end]));
  return repairOrders.reduce((sum, { operations, promised, weight }) => {
    const ready = Math.max(0, ...operations.map(({ id }) => ends.get(id) ?? 0));
    return sum + (promised == null ? 0 : Math.max(0, ready - promised) * (weight ?? 1));
  }, 0);
}

/** The new car as soon as it can be, the others moved where that costs less than it gains. */
function withMoves(
  problem: PlanProblem,
  current: Plan,
  newOrder: PlanRepairOrder,
  effort: PlanEffort,
): Result<Offer | null, PlanProblemFault> {
  const order = { ...newOrder, promised: Math.max(problem.now, newOrder.arrives ?? 0) };
  const whole = { ...problem, repairOrders: [...problem.repairOrders, order], previous: current.assignments };
  const made = plan(whole, effort);
  if (!made.ok) return made;
  const ids = new Set(order.operations.map(({ id }) => id));
  const mine = made.value.assignments.filter(({ operation }) => ids.has(operation));
  if (mine.length < ids.size) return ok(null);
  const moves = diffPlans(whole, made.value).filter(({ operation }) => !ids.has(operation));
  return ok(offerOf({ problem, current, order, seed: effort.seed }, mine, moves, made.value.assignments));
}
