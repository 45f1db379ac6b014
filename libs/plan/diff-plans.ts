import type { BrokenRule } from './broken-rule.js';
import { checkPlan } from './check-plan.js';
import { quoted } from './naming.js';
import type { Wording } from './naming.js';
import type { PlanAssignment, PlanProblem } from './plan-problem.js';
import type { Plan } from './plan-result.js';

/** What is different for one operation, and why. */
export interface PlanChange {
  readonly operation: string;
  readonly kind: 'new' | 'changed' | 'taken-out';
  readonly was: PlanAssignment | null;
  readonly is: PlanAssignment | null;
  /** Minutes later (or, below zero, sooner); 0 for what is new or taken out. */
  readonly minutesLater: number;
  readonly technicianChanged: boolean;
  readonly bayChanged: boolean;
  /** The operation that has its former place, when that is why. */
  readonly by: string | null;
  readonly why: string;
}

/** How a plan differs from the previous one of the problem. */
export function diffPlans(problem: PlanProblem, plan: Plan, wording: Wording = {}): PlanChange[] {
  const name = wording.names ?? quoted;
  const previous = new Map((problem.previous ?? []).map((was) => [was.operation, was]));
  const now = new Map(plan.assignments.map((is) => [is.operation, is]));
  const started = new Set(operationsOf(problem).flatMap((one) => (one.started == null ? [] : [one.id])));
  const reasons = whyNotStay(problem, wording);
  return operationsOf(problem).flatMap(({ id }): PlanChange[] => {
    const [was, is] = [previous.get(id) ?? null, now.get(id) ?? null];
    if (started.has(id) || (was === null && is === null)) return [];
    const change = {
      ...{ operation: id, was, is, by: null },
      minutesLater: was === null || is === null ? 0 : is.start - was.start,
      technicianChanged:
        was !== null && is !== null && was.technicians.join('\n') !== is.technicians.join('\n'),
      bayChanged: was !== null && is !== null && was.bay !== is.bay,
    };
    if (was === null) return [{ ...change, kind: 'new', why: 'It was not planned before.' }];
    if (is === null) {
      const why =
        plan.unplaced.find(({ operation }) => operation === id)?.why ?? reasons.get(id)?.detail ?? '';
      return [{ ...change, kind: 'taken-out', why }];
    }
    if (change.minutesLater === 0 && !change.technicianChanged && !change.bayChanged) return [];
    const reason = reasons.get(id);
    if (reason !== undefined && !isLongEnough(reason, was, is))
      return [{ ...change, kind: 'changed', why: reason.detail }];
    const by = whoIsThere(was, plan);
    const why = by === null ? 'Here it serves the promised times better.' : `${name(by)} is there now.`;
    return [{ ...change, by, kind: 'changed', why }];
  });
}

const operationsOf = (problem: PlanProblem) => problem.repairOrders.flatMap(({ operations }) => operations);

/** What stands against the places of the previous plan now, for each operation. */
function whyNotStay(problem: PlanProblem, wording: Wording): Map<string, BrokenRule> {
  const reasons = new Map<string, BrokenRule>();
  const kept = keptAssignments(problem);
  for (const broken of checkPlan(problem, { assignments: kept }, wording))
    if (broken.rule !== 'operation-missing')
      for (const id of broken.operations) {
        const said = reasons.get(id);
        if (said === undefined || said.rule === 'duration-wrong') reasons.set(id, broken);
      }
  return reasons;
}

/** A place that is longer than its work needs makes nothing move. */
const isLongEnough = ({ rule }: BrokenRule, was: PlanAssignment, is: PlanAssignment): boolean =>
  rule === 'duration-wrong' && was.end - was.start >= is.end - is.start;

/** The previous plan of what is still to be done, and what was started as it is now. */
export function keptAssignments(problem: PlanProblem): PlanAssignment[] {
  const previous = new Map((problem.previous ?? []).map((was) => [was.operation, was]));
  return operationsOf(problem).flatMap(({ id, started }) =>
    started == null ? (previous.get(id) ?? []) : [{ operation: id, ...started }],
  );
}

/** Who has an operation's former place, when that is why it moved. */
function whoIsThere(was: PlanAssignment, plan: Plan): string | null {
  const taker = plan.assignments.find(
    (other) =>
      other.operation !== was.operation &&
      other.start < was.end &&
      was.start < other.end &&
      (other.technicians.some((id) => was.technicians.includes(id)) ||
        (other.bay !== null && other.bay === was.bay) ||
        other.tools.some((id) => was.tools.includes(id))),
  );
  return taker?.operation ?? null;
}
