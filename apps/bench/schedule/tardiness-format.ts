import { checkTardiness, solveTardiness } from '#libs/tardiness';
import type { TardinessProblem } from '#libs/tardiness';
import type { Answer, Effort, Format } from './format.js';
import { solveGenerally } from './general-solver.js';
import { readTardiness } from './tardiness-files.js';
import { tardinessProgram } from './tardiness-program.js';

/** Fresh starts that end at the same lateness before the rest of the time is saved: a file holds 125 instances. */
const AGREEING = 10;

function solve(problem: TardinessProblem, effort: Effort): Answer {
  const solution = solveTardiness(problem, { ...effort, agreeing: AGREEING });
  const flaws = checkTardiness(problem, solution);
  if (solution.bound > solution.lateness) flaws.push('the bound is beyond the lateness');
  return { objective: solution.lateness, bound: solution.bound, firstMs: solution.firstMs, flaws };
}

export const TARDINESS: Format = {
  name: 'weighted tardiness',
  section: 'wt',
  read: (text) =>
    readTardiness(text)?.map((problem, at) => ({
      number: at + 1,
      solve: (effort) => solve(problem, effort),
      against: (limitSeconds) => solveGenerally(tardinessProgram(problem), limitSeconds),
    })) ?? null,
};
