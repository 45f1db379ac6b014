import { checkProject, solveProject } from '#libs/project';
import type { ProjectProblem } from '#libs/project';
import type { Answer, Effort, Format } from './format.js';
import { readPatterson, readProjectLibrary } from './project-files.js';

function solve(problem: ProjectProblem, effort: Effort): Answer {
  const solution = solveProject(problem, effort);
  const flaws = checkProject(problem, solution);
  if (solution.bound > solution.makespan) flaws.push('the bound is beyond the makespan');
  return { objective: solution.makespan, bound: solution.bound, firstMs: solution.firstMs, flaws };
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
      : [{ number: null, solve: (effort) => solve(problem, effort) }];
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
