import { checkMachines, solveMachines } from '#libs/machines';
import type { MachineProblem } from '#libs/machines';
import type { Answer, Effort, Format, GeneralAnswer } from './format.js';
import { solveGenerally } from './general-solver.js';
import { readFlexibleJobShop, readJobShop } from './machine-files.js';
import { machineProgram } from './machine-program.js';

function solve(problem: MachineProblem, effort: Effort): Answer {
  const solution = solveMachines(problem, effort);
  const flaws = checkMachines(problem, solution).map(({ rule, job, step }) =>
    job === null ? rule : `${rule} at job ${job} operation ${step ?? '?'}`,
  );
  if (solution.bound > solution.makespan) flaws.push('the bound is beyond the makespan');
  return { objective: solution.makespan, bound: solution.bound, firstMs: solution.firstMs, flaws };
}

/** The horizon of the program is the first plan's makespan, which costs a moment and makes the program much easier. */
async function against(problem: MachineProblem, limitSeconds: number): Promise<GeneralAnswer> {
  const { makespan } = solveMachines(problem, { timeLimitMs: 0, now: () => 0, seed: 1 });
  const program = machineProgram(problem, makespan);
  return program === null
    ? { objective: null, proven: false, ms: 0 }
    : await solveGenerally(program, limitSeconds);
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
        against: (limitSeconds) => against(problem, limitSeconds),
      },
    ];
  },
});

export const JOB_SHOP = format('job shop', 'jsp', readJobShop);
export const FLEXIBLE_JOB_SHOP = format('flexible job shop', 'fjsp', readFlexibleJobShop);
