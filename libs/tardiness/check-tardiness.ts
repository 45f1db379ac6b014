import type { TardinessProblem } from './tardiness-problem.js';

/** Every rule that an order with its claimed lateness breaks; none when it is right. Shares no code with the solver. */
export function checkTardiness(
  { jobs }: TardinessProblem,
  claimed: { readonly order: readonly number[]; readonly lateness: number },
): string[] {
  const broken: string[] = [];
  const times = new Map<number, number>();
  for (const at of claimed.order) times.set(at, (times.get(at) ?? 0) + 1);
  jobs.forEach((_, at) => {
    const often = times.get(at) ?? 0;
    if (often !== 1) broken.push(`job ${at} is done ${often} times instead of once`);
    times.delete(at);
  });
  for (const at of times.keys()) broken.push(`job ${at} does not exist`);
  if (broken.length > 0) return broken;
  const ends: number[] = [];
  for (const at of claimed.order) ends.push((ends.at(-1) ?? 0) + (jobs[at]?.duration ?? 0));
  const lateness = claimed.order
    .map((at, place) => ({ job: jobs[at], end: ends[place] ?? 0 }))
    .reduce((sum, { job, end }) => sum + (job && end > job.due ? job.weight * (end - job.due) : 0), 0);
  if (lateness !== claimed.lateness)
    broken.push(`the lateness is ${lateness}, not ${claimed.lateness} as claimed`);
  return broken;
}
