import { seeded } from '#libs/chance';
import { projectBound } from './project-bound.js';
import { projectModel } from './project-model.js';
import type { ProjectEffort, ProjectProblem, ProjectSolution } from './project-problem.js';
import { ProjectSearch, USUAL_TUNING } from './project-search.js';
import type { SearchTuning } from './project-search.js';

/** Plans between two looks at the clock. */
const LOOK = 8;

/**
 * A plan of a project that is done early, single-mode or multi-mode; the first one is there at once, the rest of the time
 * improves it.
 *
 * @throws RangeError when the project cannot be done at all: see `projectModel`.
 */
export function solveProject(
  problem: ProjectProblem,
  effort: ProjectEffort,
  tuning: SearchTuning = USUAL_TUNING,
): ProjectSolution {
  const start = effort.now();
  const model = projectModel(problem);
  const bound = projectBound(problem, model);
  const search = new ProjectSearch(model, seeded(effort.seed), tuning);
  const firstMs = effort.now() - start;
  const enough = Math.max(effort.target ?? 0, bound);
  const limit = effort.maxSchedules ?? Infinity;
  for (let turn = 1; search.best.excess > 0 || search.best.makespan > enough; turn++) {
    if (search.maker.made >= limit) break;
    if (turn % LOOK === 0 && effort.now() - start >= effort.timeLimitMs) break;
    search.step();
  }
  const { best } = search;
  return {
    starts: [...best.starts],
    modes: Array.from(best.modes, (mode) => model.given[mode] ?? 0),
    makespan: best.makespan,
    feasible: best.excess === 0,
    bound,
    firstMs,
    schedules: search.maker.made,
  };
}
