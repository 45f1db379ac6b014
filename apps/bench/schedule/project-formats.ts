import { checkProject, solveProject } from '#libs/project';
import type { ProjectProblem, ProjectSolution } from '#libs/project';
import type { Answer, Effort, Format } from './format.js';
import { solveByConstraints } from './constraint-solver.js';
import { readPatterson, readProjectLibrary } from './project-files.js';
import { projectConstraints } from './project-constraints.js';

/** Without a plan the objective is infinite; so is the bound when there can be none. */
function solve(problem: ProjectProblem, effort: Effort): Answer {
  let solution: ProjectSolution;
  try {
    solution = solveProject(problem, effort);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { objective: Infinity, bound: Infinity, firstMs: 0, flaws: [] };
  }
  const { makespan, bound, firstMs } = solution;
  if (!solution.feasible) return { objective: Infinity, bound, firstMs, flaws: ['no plan was found'] };
  const flaws = checkProject(problem, solution);
  if (bound > makespan) flaws.push('the bound is beyond the makespan');
  return { objective: makespan, bound, firstMs, flaws };
}

const isSingle = ({ activities, nonrenewable }: ProjectProblem): boolean =>
  nonrenewable.length === 0 && activities.every(({ modes }) => modes.length === 1);

const format = (
  name: string,
  section: string,
  read: (text: string) => ProjectProblem | null,
  isSuch: (problem: ProjectProblem) => boolean,
): Format => ({
  name,
  section,
  read: (text) => {
    const problem = read(text);
    return problem === null || !isSuch(problem)
      ? null
      : [
          {
            number: null,
            solve: (effort) => solve(problem, effort),
            against: (limitSeconds) => solveByConstraints(projectConstraints(problem), limitSeconds),
          },
        ];
  },
});

export const PATTERSON = format('project, Patterson', 'rcpsp', readPatterson, isSingle);
export const SINGLE_MODE = format('project, single-mode', 'rcpsp', readProjectLibrary, isSingle);
export const MULTI_MODE = format(
  'project, multi-mode',
  'mrcpsp',
  readProjectLibrary,
  (problem) => !isSingle(problem),
);
