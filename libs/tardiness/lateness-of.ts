import type { TardyJob } from './tardiness-problem.js';

/** The weighted lateness of jobs done in this order without a gap. */
export function latenessOf(jobs: readonly TardyJob[], order: readonly number[]): number {
  let time = 0;
  let lateness = 0;
  for (const at of order) {
    const job = jobs[at];
    if (job === undefined) throw new RangeError(`there is no job ${at}`);
    time += job.duration;
    lateness += job.weight * Math.max(0, time - job.due);
  }
  return lateness;
}
