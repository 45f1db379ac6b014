import { checkProject, solveProject } from '#libs/project';
import type { ProjectProblem, ProjectSolution } from '#libs/project';
import type { Answer, Effort, Format, GeneralAnswer } from './format.js';
import { solveGenerally } from './general-solver.js';
import { readPatterson, readProjectLibrary } from './project-files.js';
import { projectProgram } from './project-program.js';

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

/** The horizon of the program is the makespan of the first plans, which cost a moment and make it much smaller. */
async function against(problem: ProjectProblem, limitSeconds: number): Promise<GeneralAnswer> {
  const nothing: GeneralAnswer = { objective: null, proven: false, ms: 0 };
  const first = solve(problem, { timeLimitMs: 0, now: () => 0, seed: 1 });
  const program = Number.isFinite(first.objective) ? projectProgram(problem, first.objective) : null;
  return program === null ? nothing : await solveGenerally(program, limitSeconds);
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
            against: (limitSeconds) => against(problem, limitSeconds),
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
