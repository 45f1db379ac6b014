import { measurePlan } from '#libs/plan';
import type { Plan, PlanAssignment, PlanProblem, Replanned } from '#libs/plan';
import type { EventKind } from './events.js';

/** What came of planning again after one event. */
export interface Figures {
  readonly event: EventKind;
  readonly ms: number;
  readonly firstMs: number;
  /** Operations that start at another time, are another's, or in another bay. */
  readonly moved: number;
  readonly people: number;
  readonly bays: number;
  /** Repair orders that are late and were not. */
  readonly newlyLate: number;
  readonly newlyLateScratch: number;
  /** Weighted minutes: the plan before the event, after it, and planned from scratch after it. */
  readonly before: number;
  readonly lateness: number;
  readonly scratch: number;
  readonly bound: number;
  readonly change: number;
}

export const say = (line: string): void => void process.stdout.write(`${line}\n`);

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

export function percentile(values: readonly number[], percent: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor((sorted.length * percent) / 100))] ?? Number.NaN;
}

/** The repair orders that are ready too late. */
function late({ repairOrders }: PlanProblem, assignments: readonly PlanAssignment[]): Set<string> {
  const ends = new Map(assignments.map(({ operation, end }) => [operation, end]));
  return new Set(
    repairOrders.flatMap(({ id, promised, operations }) => {
      const ready = Math.max(...operations.map((one) => ends.get(one.id) ?? 0));
      return promised != null && ready > promised ? [id] : [];
    }),
  );
}

export function comparison(
  problem: PlanProblem,
  made: Replanned,
  scratch: Plan,
): Omit<Figures, 'event' | 'ms'> {
  const previous = problem.previous ?? [];
  const lateBefore = late(problem, previous);
  const newly = (assignments: readonly PlanAssignment[]): number =>
    [...late(problem, assignments)].filter((id) => !lateBefore.has(id)).length;
  const changed = made.changes.filter(({ kind }) => kind === 'changed');
  return {
    firstMs: made.firstMs,
    moved: changed.filter(({ minutesLater }) => minutesLater !== 0).length,
    people: changed.filter(({ technicianChanged }) => technicianChanged).length,
    bays: changed.filter(({ bayChanged }) => bayChanged).length,
    newlyLate: newly(made.assignments),
    newlyLateScratch: newly(scratch.assignments),
    before: measurePlan({ ...problem, previous: null }, { assignments: previous }).lateness,
    lateness: made.cost.lateness,
    scratch: measurePlan({ ...problem, previous: null }, scratch).lateness,
    bound: made.latenessBound,
    change: made.cost.change,
  };
}
