import { checkMachines, solveMachines } from '#libs/machines';
import type { MachineProblem } from '#libs/machines';
import type { Answer, Effort, Format } from './format.js';
import { solveByConstraints } from './constraint-solver.js';
import { readFlexibleJobShop, readJobShop } from './machine-files.js';
import { machinesAsProject, projectConstraints } from './project-constraints.js';

function solve(problem: MachineProblem, effort: Effort): Answer {
  const solution = solveMachines(problem, effort);
  const flaws = checkMachines(problem, solution).map(({ rule, job, step }) =>
    job === null ? rule : `${rule} at job ${job} operation ${step ?? '?'}`,
  );
  if (solution.bound > solution.makespan) flaws.push('the bound is beyond the makespan');
  return { objective: solution.makespan, bound: solution.bound, firstMs: solution.firstMs, flaws };
}

const format = (name: string, section: string, read: (text: string) => MachineProblem | null): Format => ({
  name,
  section,
  read: (text) => {
    const problem = read(text);
    if (problem === null) return null;
    return [
      {
        number: null,
        solve: (effort) => solve(problem, effort),
        against: (limitSeconds) =>
          solveByConstraints(projectConstraints(machinesAsProject(problem)), limitSeconds),
      },
    ];
  },
});

export const JOB_SHOP = format('job shop', 'jsp', readJobShop);
export const FLEXIBLE_JOB_SHOP = format('flexible job shop', 'fjsp', readFlexibleJobShop);
