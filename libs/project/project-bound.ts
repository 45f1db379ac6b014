import type { ProjectModel } from './project-model.js';
import type { ProjectProblem } from './project-problem.js';

/**
 * A makespan below which no plan can be: the longest chain of shortest durations, and for each renewable resource the work
 * of all activities that cannot start before some time and leave at least some tail behind them.
 */
export function projectBound(problem: ProjectProblem, model: ProjectModel): number {
  const { head, tail, size, given, firstMode } = model;
  let bound = 0;
  for (let at = 0; at < size; at++) bound = Math.max(bound, (head[at] ?? 0) + (tail[at] ?? 0));
  // Of the modes that some best plan may use only, as heads and tails are.
  const useful = problem.activities.map(({ modes }, at) =>
    modes.filter((_, index) => given.subarray(firstMode[at], firstMode[at + 1]).includes(index)),
  );
  const shortest = useful.map((modes) => Math.min(...modes.map(({ duration }) => duration)));
  problem.renewable.forEach((units, resource) => {
    if (units === 0) return;
    const works = useful.map((modes) =>
      Math.min(...modes.map(({ duration, holds }) => duration * (holds[resource] ?? 0))),
    );
    const behind = shortest.map((takes, at) => (tail[at] ?? 0) - takes);
    const byTail = [...works.keys()].sort((a, b) => (behind[b] ?? 0) - (behind[a] ?? 0));
    for (const from of new Set(head)) {
      let work = 0;
      for (const at of byTail) {
        if ((head[at] ?? 0) < from || works[at] === 0) continue;
        work += works[at] ?? 0;
        bound = Math.max(bound, from + Math.ceil(work / units) + (behind[at] ?? 0));
      }
    }
  });
  return bound;
}
