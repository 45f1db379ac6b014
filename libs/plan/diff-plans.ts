import type { BrokenRule } from './broken-rule.js';
import { checkPlan } from './check-plan.js';
import { quoted } from './naming.js';
import type { Wording } from './naming.js';
import type { PlanAssignment, PlanProblem, PlanRepairOrder } from './plan-problem.js';
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
  /** The operation that has its former place or its vehicle at that time, when that is why. */
  readonly by: string | null;
  readonly why: string;
}

/** How a plan differs from the previous one of the problem. */
export function diffPlans(problem: PlanProblem, plan: Plan, wording: Wording = {}): PlanChange[] {
  const name = wording.names ?? quoted;
  const previous = new Map((problem.previous ?? []).map((was) => [was.operation, was]));
  const now = new Map(plan.assignments.map((is) => [is.operation, is]));
  const orderOf = new Map(
    problem.repairOrders.flatMap((order) => order.operations.map(({ id }) => [id, order] as const)),
  );
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
      return [{ ...change, kind: 'changed', why: reason.rule === 'before-now' ? PASSED : reason.detail }];
    const order = orderOf.get(id);
    // Who took the place only followed, where it was left for a promise of its own.
    if (is.end < was.end && was.end > (order?.promised ?? Infinity))
      return [{ ...change, kind: 'changed', why: 'There its promise would be missed.' }];
    const there = whoIsThere(was, plan);
    if (there !== null)
      return [{ ...change, by: there, kind: 'changed', why: `${name(there)} is there now.` }];
    const apart = whoStandsApart(was, problem, plan);
    if (apart !== null)
      return [
        {
          ...change,
          by: apart,
          kind: 'changed',
          why: `The vehicle of ${name(apart)} stands apart there then.`,
        },
      ];
    const beside = onTheVehicle(was, order, plan);
    const why = beside === null ? SERVES_BETTER : `${name(beside)} is done on the vehicle then.`;
    return [{ ...change, by: beside, kind: 'changed', why }];
  });
}

const PASSED = 'Its time has begun, and nobody is at it.';
const SERVES_BETTER = 'Here it serves the promised times better.';

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

/** What else is done on its vehicle at its former time, when that is why it moved. */
function onTheVehicle(was: PlanAssignment, order: PlanRepairOrder | undefined, plan: Plan): string | null {
  const others = new Set((order?.operations ?? []).map(({ id }) => id));
  const other = plan.assignments.find(
    ({ operation, start, end }) =>
      operation !== was.operation && others.has(operation) && start < was.end && was.start < end,
  );
  return other?.operation ?? null;
}

/** The last operation of a teardown whose vehicle stands in an operation's former bay then, worked on or not. */
function whoStandsApart({ bay, ...was }: PlanAssignment, problem: PlanProblem, plan: Plan): string | null {
  if (bay === null) return null;
  const at = new Map(plan.assignments.map((place) => [place.operation, place]));
  for (const { operations } of problem.repairOrders) {
    if (operations.some(({ id }) => id === was.operation)) continue;
    for (const word of new Set(operations.flatMap(({ teardown }) => teardown ?? []))) {
      const own = operations
        .filter(({ teardown }) => teardown === word)
        .flatMap(({ id }) => at.get(id) ?? []);
      const last = own.reduce(
        (latest, place) => (place.end > latest.end ? place : latest),
        own[0] ?? NOWHERE,
      );
      const from = Math.min(...own.map(({ start }) => start));
      if (last.bay === bay && from < was.end && was.start < last.end) return last.operation;
    }
  }
  return null;
}

const NOWHERE: PlanAssignment = { operation: '', start: 0, end: 0, bay: null, technicians: [], tools: [] };
