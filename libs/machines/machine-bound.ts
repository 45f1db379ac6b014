import { jobTimes } from './job-times.js';
import type { JobTimes } from './job-times.js';
import type { Layout } from './layout.js';
import { loadBound } from './load-bound.js';
import type { MachineDemand } from './one-machine-bound.js';
import { oneMachineBound } from './one-machine-bound.js';

/** The operations that only one machine can do, by machine. */
function demandsByMachine(layout: Layout, { heads, tails }: JobTimes): MachineDemand[][] {
  const { size, machines, from, machineOf, least } = layout;
  const demands = Array.from({ length: machines }, (): MachineDemand[] => []);
  for (let o = 0; o < size; o++) {
    const first = from[o] ?? 0;
    if ((from[o + 1] ?? 0) - first !== 1) continue;
    demands[machineOf[first] ?? 0]?.push({
      head: heads[o] ?? 0,
      duration: least[o] ?? 0,
      tail: tails[o] ?? 0,
    });
  }
  return demands;
}

/**
 * A time before which no plan can be over: the longest job; for each machine what only it can do, between what comes
 * before and after within the jobs (`oneMachineBound`); and, where operations have a choice, the work shared out as
 * evenly as it can be (`loadBound`).
 */
export function machineBound(layout: Layout): number {
  const times = jobTimes(layout);
  const byMachine = demandsByMachine(layout, times).map((demands) => oneMachineBound(demands));
  return Math.max(times.longest, ...byMachine, layout.isFlexible ? loadBound(layout, times) : 0);
}
