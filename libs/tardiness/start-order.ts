import type { TardyJob } from './tardiness-problem.js';

/** How far ahead the rule looks, in mean durations (Vepsalainen and Morton 1987 use 2 for one machine; from memory). */
const AHEAD = 2;

/** A quick order by the apparent tardiness cost rule; `noise` from 0 up spreads it. */
export function startOrder(jobs: readonly TardyJob[], noise: number, chance: () => number): number[] {
  const mean = jobs.reduce((sum, { duration }) => sum + duration, 0) / Math.max(1, jobs.length);
  const open = jobs.map((job, at) => ({ job, at, factor: 1 + noise * (chance() - 0.5) }));
  const order: number[] = [];
  let time = 0;
  while (open.length > 0) {
    let chosen = 0;
    let highest = -1;
    open.forEach(({ job, factor }, place) => {
      const slack = Math.max(0, job.due - job.duration - time);
      const index =
        (job.weight / Math.max(1, job.duration)) * Math.exp(-slack / Math.max(1, AHEAD * mean)) * factor;
      if (index <= highest) return;
      highest = index;
      chosen = place;
    });
    const [next] = open.splice(chosen, 1);
    if (next === undefined) break;
    order.push(next.at);
    time += next.job.duration;
  }
  return order;
}
