import { ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { checkProblem } from './check-problem.js';
import type { PlanProblemFault } from './check-problem.js';
import { latenessBound } from './lateness-bound.js';
import { measurePlan } from './measure-plan.js';
import { modelOf } from './model-of.js';
import type { PlanModel } from './plan-model.js';
import type { PlanProblem } from './plan-problem.js';
import type { PlanAnswer, PlanEffort } from './plan-result.js';
import { readOut } from './read-out.js';
import { searchPlan } from './search-plan.js';
import { shortenStays } from './shorten-stays.js';

/**
 * The best plan that is found within the effort: who does what in which bay with which tools, when. A first answer takes
 * a few milliseconds; the rest of the time makes it better. Where the problem has a previous plan, the search stays
 * around it and charges for changes.
 */
export function plan(problem: PlanProblem, effort: PlanEffort): Result<PlanAnswer, PlanProblemFault> {
  const checked = checkProblem(problem);
  if (!checked.ok) return checked;
  return ok(answerOf(modelOf(problem), effort));
}

/** As `plan`, of a problem that was checked. */
export function answerOf(model: PlanModel, effort: PlanEffort): PlanAnswer {
  const { draft, looked, firstMs, bestMs } = searchPlan(model, effort);
  const made = shortenStays(model.problem, readOut(model, draft));
  const cost = measurePlan(model.problem, made);
  return { ...made, cost, latenessBound: latenessBound(model), looked, firstMs, bestMs };
}
