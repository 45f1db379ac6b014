import { Chance } from '#libs/chance';
import { Evolution } from './evolution.js';
import { layoutOf } from './layout.js';
import { machineBound } from './machine-bound.js';
import type { MachineEffort, MachineProblem, MachineSolution } from './machine-problem.js';
import { PlanWalk } from './plan-walk.js';
import { Sequences } from './sequences.js';
import type { Kept } from './sequences.js';

/** All durations together must stay below this, so that every sum is exact in 32 bits. */
const MOST = 2 ** 30;

function assertSound({ machines, jobs }: MachineProblem): void {
  let total = 0;
  for (const ways of jobs.flat()) {
    if (ways.length === 0) throw new RangeError('an operation has no alternative');
    for (const { machine, duration } of ways) {
      if (!Number.isSafeInteger(machine) || machine < 0 || machine >= machines)
        throw new RangeError(`machine ${machine} of ${machines}`);
      if (!Number.isSafeInteger(duration) || duration < 0)
        throw new RangeError(`a duration of ${duration}, not a whole number from zero up`);
    }
    total += Math.max(...ways.map(({ duration }) => duration));
  }
  if (total >= MOST) throw new RangeError('the durations add up to more than can be planned');
}

/** The plan in the problem's own words. */
function worded(
  problem: MachineProblem,
  plan: Sequences,
  best: Kept,
): Pick<MachineSolution, 'starts' | 'machines' | 'makespan'> {
  plan.load(best);
  let at = 0;
  const starts: number[][] = [];
  const machines: number[][] = [];
  for (const job of problem.jobs) {
    starts.push(job.map((_, step) => (plan.end[at + step] ?? 0) - (plan.duration[at + step] ?? 0)));
    machines.push(job.map((_, step) => plan.machine[at + step] ?? 0));
    at += job.length;
  }
  return { starts, machines, makespan: plan.makespan };
}

/**
 * A plan that finishes as early as could be found: a dispatch rule first, then tabu search within an evolution
 * (`PlanWalk`, `Evolution`) until the time, the moves or the target is reached, or the plan meets the bound and so is
 * proven best. Bounded by moves alone, the answer is the same for a seed every time.
 *
 * @throws RangeError for an operation without alternatives, a machine or duration that cannot be, or durations that
 * together pass 2^30.
 */
export function solveMachines(problem: MachineProblem, effort: MachineEffort): MachineSolution {
  assertSound(problem);
  const begun = effort.now();
  const layout = layoutOf(problem);
  const bound = machineBound(layout);
  const plan = new Sequences(layout);
  const chance = new Chance(effort.seed);
  const most = effort.maxIterations ?? Infinity;
  const isOver = (): boolean => walk.moves >= most || effort.now() - begun >= effort.timeLimitMs;
  const walk: PlanWalk = new PlanWalk(plan, chance, isOver);
  const evolution = new Evolution(plan, walk, chance, isOver, Math.max(bound, effort.target ?? 0));
  evolution.begin();
  const firstMs = effort.now() - begun;
  evolution.run();
  return { ...worded(problem, plan, evolution.best), bound, firstMs, iterations: walk.moves };
}
