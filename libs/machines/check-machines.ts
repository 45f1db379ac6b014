import type { MachinePlan, MachineProblem } from './machine-problem.js';

/**
 * `plan-shape`: not one start and one machine for every operation. `start-invalid`: a start that is not a whole
 * number from zero up. `machine-not-able`: an operation on a machine that is none of its alternatives.
 * `job-order`: an operation starts before the one ahead of it in its job has ended. `machine-overlap`: a machine does
 * two operations at a time. `makespan-wrong`: the makespan is not when the last operation ends.
 */
export type MachineRule =
  'plan-shape' | 'start-invalid' | 'machine-not-able' | 'job-order' | 'machine-overlap' | 'makespan-wrong';

/** One broken rule, and where: the operation `step` of the job `job`, both counted from zero. */
export interface MachineViolation {
  readonly rule: MachineRule;
  readonly job: number | null;
  readonly step: number | null;
}

interface Placed {
  readonly job: number;
  readonly step: number;
  readonly start: number;
  readonly end: number;
}

/** On one machine: two operations that take time may not share any of it; one that takes none is not inside another. */
function overlapsOn(placed: readonly Placed[]): MachineViolation[] {
  const inTime = [...placed].sort((a, b) => a.start - b.start || a.end - b.end);
  const found: MachineViolation[] = [];
  let free = -Infinity;
  for (const { job, step, start, end } of inTime) {
    if (start < free) found.push({ rule: 'machine-overlap', job, step });
    free = Math.max(free, end);
  }
  return found;
}

/**
 * Every rule that a plan breaks, worked out from the problem's words alone: nothing here is shared with the search.
 * An empty list means that the plan can be carried out as it stands.
 */
export function checkMachines(problem: MachineProblem, plan: MachinePlan): readonly MachineViolation[] {
  const found: MachineViolation[] = [];
  const byMachine = new Map<number, Placed[]>();
  let latest = 0;
  const isOneForEach = (rows: readonly (readonly number[])[]): boolean =>
    rows.length === problem.jobs.length && rows.every((row, job) => row.length === problem.jobs[job]?.length);
  if (!isOneForEach(plan.starts) || !isOneForEach(plan.machines))
    return [{ rule: 'plan-shape', job: null, step: null }];
  problem.jobs.forEach((operations, job) => {
    let ready = -Infinity;
    operations.forEach((ways, step) => {
      const start = plan.starts[job]?.[step] ?? Number.NaN;
      const machine = plan.machines[job]?.[step] ?? Number.NaN;
      const durations = ways.flatMap((way) => (way.machine === machine ? [way.duration] : []));
      if (!Number.isSafeInteger(start) || start < 0) found.push({ rule: 'start-invalid', job, step });
      if (durations.length === 0) {
        found.push({ rule: 'machine-not-able', job, step });
        return;
      }
      if (start < ready) found.push({ rule: 'job-order', job, step });
      const end = start + Math.min(...durations);
      ready = end;
      latest = Math.max(latest, end);
      byMachine.set(machine, [...(byMachine.get(machine) ?? []), { job, step, start, end }]);
    });
  });
  for (const placed of byMachine.values()) found.push(...overlapsOn(placed));
  if (plan.makespan !== latest) found.push({ rule: 'makespan-wrong', job: null, step: null });
  return found;
}
