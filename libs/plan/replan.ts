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
import { answerOf } from './plan.js';
import type { PlanModel } from './plan-model.js';
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
  const began = effort.now();
  const checked = checkProblem(problem);
  if (!checked.ok) return checked;
  const model = modelOf(problem);
  if (wish.improve !== true) {
    const same = stillHolds(model, wish.latenessBefore ?? Infinity, effort);
    if (same !== null) return ok(same);
  }
  // The limit is for the whole of it.
  const timeLimitMs = Math.max(1, effort.timeLimitMs - (effort.now() - began));
  const made = answerOf(model, { ...effort, timeLimitMs });
  const changes = diffPlans(problem, made);
  return ok({ ...made, isChanged: changes.length > 0, changes });
}

/** The previous plan when there is nothing to change in it, else null. */
function stillHolds(model: PlanModel, latenessBefore: number, effort: PlanEffort): Replanned | null {
  const began = effort.now();
  const { problem } = model;
  if (!keepsAll(model)) return null;
  const assignments = keptAssignments(problem);
  const placed = new Set(assignments.map(({ operation }) => operation));
  const unplaced = model.ids.flatMap((operation, o) =>
    model.isHopeless[o] === 1 && !placed.has(operation) ? [{ operation, why: whyHopeless(model, o) }] : [],
  );
  if (checkPlan(problem, { assignments, unplaced }).length > 0) return null;
  const cost = measurePlan(problem, { assignments });
  if (cost.lateness > latenessBefore) return null;
  const ms = effort.now() - began;
  const figures = { cost, latenessBound: latenessBound(model), looked: 0, firstMs: ms, bestMs: ms };
  return { assignments, unplaced, ...figures, isChanged: false, changes: [] };
}

/** Whether all that can be done has its place in the previous plan; what is new has none. */
function keepsAll(model: PlanModel): boolean {
  const { previous } = model;
  for (let o = 0; o < model.operations; o++) {
    const isOpen = model.isStarted[o] === 0 && model.isHopeless[o] === 0;
    if (isOpen && ((previous.start[o] ?? -1) < 0 || (previous.crew[o] ?? -1) < 0)) return false;
  }
  return true;
}
