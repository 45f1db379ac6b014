import { ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { checkPlan } from './check-plan.js';
import { checkProblem } from './check-problem.js';
import type { PlanProblemFault } from './check-problem.js';
import { diffPlans, keptAssignments } from './diff-plans.js';
import type { PlanChange } from './diff-plans.js';
import { latenessBound } from './lateness-bound.js';
import { measurePlan } from './measure-plan.js';
import { modelOf } from './model-of.js';
import { plan } from './plan.js';
import type { PlanProblem } from './plan-problem.js';
import type { PlanAnswer, PlanEffort } from './plan-result.js';
import { whyHopeless } from './why-hopeless.js';

export interface Replanned extends PlanAnswer {
  readonly isChanged: boolean;
  readonly changes: readonly PlanChange[];
}

export interface ReplanWish {
  /** Looks for a better plan even when the previous one still holds. */
  readonly improve?: boolean;
  /** The most lateness with which the previous plan may go on; left out, any. */
  readonly latenessBefore?: number;
}

/**
 * The plan after something happened: the problem has it in, and its `previous` is what was promised. What was started
 * stays, what still can keeps its place, the rest is placed anew, and then everything is searched with changes charged.
 * When the previous plan still keeps every rule and is no later than it was, nothing at all changes.
 */
export function replan(
  problem: PlanProblem,
  effort: PlanEffort,
  wish: ReplanWish = {},
): Result<Replanned, PlanProblemFault> {
  const checked = checkProblem(problem);
  if (!checked.ok) return checked;
  if (wish.improve !== true) {
    const same = stillHolds(problem, wish.latenessBefore ?? Infinity, effort);
    if (same !== null) return ok(same);
  }
  const made = plan(problem, effort);
  if (!made.ok) return made;
  const changes = diffPlans(problem, made.value);
  return ok({ ...made.value, isChanged: changes.length > 0, changes });
}

/** The previous plan when there is nothing to change in it, else null. */
function stillHolds(problem: PlanProblem, latenessBefore: number, effort: PlanEffort): Replanned | null {
  const began = effort.now();
  const model = modelOf(problem);
  const assignments = keptAssignments(problem);
  const placed = new Set(assignments.map(({ operation }) => operation));
  const unplaced = model.ids.flatMap((operation, o) =>
    model.isHopeless[o] === 1 && !placed.has(operation) ? [{ operation, why: whyHopeless(model, o) }] : [],
  );
  if (checkPlan(problem, { assignments, unplaced }).length > 0) return null;
  const cost = measurePlan(problem, { assignments });
  if (cost.lateness > latenessBefore) return null;
  const ms = effort.now() - began;
  return {
    ...{
      assignments,
      unplaced,
      cost,
      latenessBound: latenessBound(model),
      looked: 0,
      firstMs: ms,
      bestMs: ms,
    },
    ...{ isChanged: false, changes: [] },
  };
}
