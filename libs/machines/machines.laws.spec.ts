import fc from 'fast-check';
import { checkMachines } from './check-machines.js';
import type { MachineEffort, MachineProblem } from './machine-problem.js';
import { solveMachines } from './solve-machines.js';

const operation = (
  machines: number,
  choices: number,
): fc.Arbitrary<{ machine: number; duration: number }[]> =>
  fc.uniqueArray(
    fc.record({
      machine: fc.nat(machines - 1),
      duration: fc.oneof(fc.integer({ min: 1, max: 9 }), fc.nat(3)),
    }),
    { minLength: 1, maxLength: choices, selector: ({ machine }) => machine },
  );

/** Problems of a few operations, some of which take no time. */
const tinyProblem = (choices: number, jobs = 3, steps = 3): fc.Arbitrary<MachineProblem> =>
  fc.integer({ min: 1, max: 3 }).chain((machines) =>
    fc.record({
      machines: fc.constant(machines),
      jobs: fc.array(fc.array(operation(machines, choices), { minLength: 1, maxLength: steps }), {
        minLength: 1,
        maxLength: jobs,
      }),
    }),
  );

/** The least makespan there is, by trying every order of the operations and every choice of machines. */
function leastMakespan({ machines, jobs }: MachineProblem): number {
  const next = jobs.map(() => 0);
  const ready = jobs.map(() => 0);
  const free = Array.from({ length: machines }, () => 0);
  let least = Infinity;
  const go = (latest: number): void => {
    if (latest >= least) return;
    if (jobs.every((job, number) => next[number] === job.length)) {
      least = latest;
      return;
    }
    jobs.forEach((job, number) => {
      const step = next[number] ?? 0;
      const ways = job[step];
      if (ways === undefined) return;
      for (const { machine, duration } of ways) {
        const [wasReady = 0, wasFree = 0] = [ready[number], free[machine]];
        const end = Math.max(wasReady, wasFree) + duration;
        next[number] = step + 1;
        ready[number] = free[machine] = end;
        go(Math.max(latest, end));
        next[number] = step;
        ready[number] = wasReady;
        free[machine] = wasFree;
      }
    });
  };
  go(0);
  return least;
}

const EFFORT: MachineEffort = { timeLimitMs: 1, now: () => 0, seed: 1, maxIterations: 3000 };

const agreesWithEnumeration = (problem: MachineProblem): void => {
  const least = leastMakespan(problem);
  const solution = solveMachines(problem, { ...EFFORT, target: least });
  expect(checkMachines(problem, solution)).toEqual([]);
  expect(solution.makespan).toBe(least);
  expect(solution.bound).toBeLessThanOrEqual(least);
};

describe('plans of machines', () => {
  it('of a few operations are as short as trying everything finds, each operation on its one machine', () => {
    fc.assert(fc.property(tinyProblem(1), agreesWithEnumeration), { numRuns: 2000 });
  });

  it('of a few operations are as short as trying everything finds, with a choice of machines', () => {
    fc.assert(fc.property(tinyProblem(3, 3, 2), agreesWithEnumeration), { numRuns: 2000 });
  });

  it('can be carried out and are never shorter than the bound, whatever the problem and the seed', () => {
    fc.assert(
      fc.property(tinyProblem(3, 8, 6), fc.integer(), (problem, seed) => {
        const solution = solveMachines(problem, { ...EFFORT, seed, maxIterations: 300 });
        expect(checkMachines(problem, solution)).toEqual([]);
        expect(solution.bound).toBeLessThanOrEqual(solution.makespan);
      }),
      { numRuns: 500 },
    );
  });

  it('do not get longer when an operation may be done on one more machine', () => {
    fc.assert(
      fc.property(
        tinyProblem(2, 3, 2),
        fc.nat(),
        fc.nat(2),
        fc.nat(5),
        (problem, which, machine, duration) => {
          const job = which % problem.jobs.length;
          const more = {
            machines: 3,
            jobs: problem.jobs.map((steps, at) =>
              at === job ? steps.map((ways) => [...ways, { machine, duration }]) : steps,
            ),
          };
          const before = leastMakespan(problem);
          expect(solveMachines(more, { ...EFFORT, target: before }).makespan).toBeLessThanOrEqual(before);
        },
      ),
      { numRuns: 300 },
    );
  });
});
