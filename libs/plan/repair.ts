import { aroundPlan } from './around-plan.js';
import { bestRule } from './best-rule.js';
import { checkPlan } from './check-plan.js';
import { keptAssignments } from './diff-plans.js';
import { Dispatcher } from './dispatcher.js';
import { Draft } from './draft.js';
import { freeOperations } from './free-operations.js';
import { modelOf } from './model-of.js';
import { Placer } from './placer.js';
import type { PlanAssignment, PlanProblem, PlanRepairOrder } from './plan-problem.js';
import { readOut } from './read-out.js';

/** Rounds in which what stands in the way of the displaced is displaced itself. */
const ROUNDS = 6;

export interface Repaired {
  readonly assignments: readonly PlanAssignment[];
  readonly displaced: ReadonlySet<string>;
}

/**
 * The previous plan with as little changed as will do: what is new or cannot stay, and what of its repair order comes
 * after it, goes between the rest, which stays where it is.
 */
export function repair(problem: PlanProblem): Repaired {
  const displaced = new Set<string>();
  let assignments: readonly PlanAssignment[] = keptAssignments(problem);
  for (let round = 0; round < ROUNDS; round++) {
    const before = displaced.size;
    for (const { operations } of checkPlan(problem, { assignments }))
      for (const id of operations) displaced.add(id);
    spread(problem, displaced);
    if (displaced.size === before) break;
    const kept = keptAssignments(problem).filter(({ operation }) => !displaced.has(operation));
    assignments = [...kept, ...placedAround(problem, kept, displaced)];
  }
  return { assignments, displaced };
}

/** Takes out of the displaced what was started, and takes in what of their repair orders was planned later. */
function spread(problem: PlanProblem, displaced: Set<string>): void {
  const was = new Map((problem.previous ?? []).map(({ operation, start }) => [operation, start]));
  for (const { operations } of problem.repairOrders) {
    const first = Math.min(
      ...operations.map(({ id }) => (displaced.has(id) ? (was.get(id) ?? 0) : Infinity)),
    );
    const words = new Set(
      operations.flatMap(({ id, teardown }) => (displaced.has(id) && teardown != null ? [teardown] : [])),
    );
    for (const { id, started, teardown } of operations) {
      if (started != null) displaced.delete(id);
      else if ((was.get(id) ?? Infinity) >= first && first < Infinity) displaced.add(id);
      else if (teardown != null && words.has(teardown)) displaced.add(id);
    }
  }
}

function placedAround(
  problem: PlanProblem,
  kept: readonly PlanAssignment[],
  displaced: ReadonlySet<string>,
): PlanAssignment[] {
  const at = new Map(kept.map((one) => [one.operation, one]));
  const inside = new Set<string>();
  const orders = problem.repairOrders.flatMap((order): PlanRepairOrder[] => {
    const own = order.operations.filter(({ id }) => displaced.has(id));
    if (own.length === 0) return [];
    // A car that is apart already stands where it stands: its started work comes along.
    const words = new Set(own.flatMap(({ teardown }) => (teardown == null ? [] : [teardown])));
    const apart = order.operations.filter(
      (one) => one.started != null && one.teardown != null && words.has(one.teardown),
    );
    for (const { id } of apart) inside.add(id);
    const ends = order.operations.map(({ id }) => (displaced.has(id) ? 0 : (at.get(id)?.end ?? 0)));
    const arrives = Math.max(order.arrives ?? 0, ...ends);
    const ids = new Set([...own, ...apart].map(({ id }) => id));
    const operations = [...apart, ...own].map((one) => ({
      ...one,
      after: one.after?.filter((id) => ids.has(id)),
    }));
    return [{ ...order, arrives, operations }];
  });
  const taken = kept.filter(({ operation }) => !inside.has(operation));
  const model = modelOf(aroundPlan(problem, taken, orders));
  const [placer, free] = [new Placer(model), freeOperations(model)];
  const dispatcher = new Dispatcher(placer, free);
  const draft = new Draft(model, free);
  placer.begin(draft);
  dispatcher.follow(bestRule(placer, free, () => false));
  dispatcher.run(draft, dispatcher.keys, Infinity);
  return readOut(model, draft).assignments.filter(({ operation }) => displaced.has(operation));
}
