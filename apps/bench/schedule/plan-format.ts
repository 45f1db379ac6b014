import { checkPlan, checkProblem, plan } from '#libs/plan';
import type { PlanProblem } from '#libs/plan';
import { solveByConstraints } from './constraint-solver.js';
import type { Answer, Effort, Format, GeneralAnswer } from './format.js';
import { planProgram } from './plan-program.js';

const isList = (value: unknown): boolean => Array.isArray(value);

/** A shop's plan problem in the format of `PlanProblem` (see `calc schedule`); null for any other text. */
export function readPlanFile(text: string): PlanProblem | null {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  const { technicians, bays, repairOrders } = value as Partial<Record<string, unknown>>;
  if (![technicians, bays, repairOrders].every(isList)) return null;
  try {
    return checkProblem(value as PlanProblem).ok ? (value as PlanProblem) : null;
  } catch (error) {
    // What has the wrong shape further in is not such a file either.
    if (error instanceof TypeError) return null;
    throw error;
  }
}

/** The objective is the lateness; a plan that leaves something out is none. */
function solve(problem: PlanProblem, effort: Effort): Answer {
  const made = plan(problem, effort);
  if (!made.ok) throw new Error(made.fault.detail);
  const { cost, latenessBound, firstMs, unplaced } = made.value;
  const flaws = checkPlan(problem, made.value).map(
    ({ rule, operations }) => `${rule}: ${operations.join(', ')}`,
  );
  if (latenessBound > cost.lateness) flaws.push('the bound is beyond the lateness');
  const objective = unplaced.length > 0 ? Infinity : cost.lateness;
  return { objective, bound: latenessBound, firstMs, flaws };
}

async function against(problem: PlanProblem, limitSeconds: number): Promise<GeneralAnswer> {
  const program = planProgram(problem);
  if (program === null) return { objective: null, proven: false, ms: 0 };
  return await solveByConstraints(program, limitSeconds);
}

export const PLAN: Format = {
  name: 'plan problem',
  section: 'plan',
  read: (text) => {
    const problem = readPlanFile(text);
    if (problem === null) return null;
    return [
      {
        number: null,
        solve: (effort) => solve(problem, effort),
        against: (limitSeconds) => against(problem, limitSeconds),
      },
    ];
  },
};
