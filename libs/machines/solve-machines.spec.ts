import { checkMachines } from './check-machines.js';
import type { MachineEffort, MachineProblem } from './machine-problem.js';
import { solveMachines } from './solve-machines.js';

/** A job shop from the numbers as printed in the papers: a row per job, machine and duration in turn. */
const jobShop = (table: string): MachineProblem => {
  const rows = table
    .trim()
    .split('\n')
    .map((row) => row.trim().split(/\s+/).map(Number));
  const machines = (rows[0]?.length ?? 0) / 2;
  return {
    machines,
    jobs: rows.map((row) =>
      Array.from({ length: machines }, (_, at) => [
        { machine: row[2 * at] ?? -1, duration: row[2 * at + 1] ?? -1 },
      ]),
    ),
  };
};

/** H. Fisher, G. L. Thompson 1963, 6 jobs on 6 machines; the optimum is 55. */
const FT06 = jobShop(`
2 1 0 3 1 6 3 7 5 3 4 6
1 8 2 5 4 10 5 10 0 10 3 4
2 5 3 4 5 8 0 9 1 1 4 7
1 5 0 5 2 5 3 3 4 8 5 9
2 9 1 3 4 5 5 4 0 3 3 1
1 3 3 3 5 9 0 10 4 4 2 1
`);

/** H. Fisher, G. L. Thompson 1963, 10 jobs on 10 machines; the optimum is 930 (J. Carlier, E. Pinson 1989). */
const FT10 = jobShop(`
0 29 1 78 2 9 3 36 4 49 5 11 6 62 7 56 8 44 9 21
0 43 2 90 4 75 9 11 3 69 1 28 6 46 5 46 7 72 8 30
1 91 0 85 3 39 2 74 8 90 5 10 7 12 6 89 9 45 4 33
1 81 2 95 0 71 4 99 6 9 8 52 7 85 3 98 9 22 5 43
2 14 0 6 1 22 5 61 3 26 4 69 8 21 7 49 9 72 6 53
2 84 1 2 5 52 3 95 8 48 9 72 0 47 6 65 4 6 7 25
1 46 0 37 3 61 2 13 6 32 5 21 9 32 8 89 7 30 4 55
2 31 0 86 1 46 5 74 4 32 6 88 8 19 9 48 7 36 3 79
0 76 1 69 3 76 5 51 2 85 9 11 6 40 7 89 4 26 8 74
1 85 0 13 2 61 6 7 8 64 9 76 5 47 3 52 4 90 7 45
`);

/** S. Lawrence 1984, LA02: 10 jobs on 5 machines; the optimum is 655. */
const LA02 = jobShop(`
0 20 3 87 1 31 4 76 2 17
4 25 2 32 0 24 1 18 3 81
1 72 2 23 4 28 0 58 3 99
2 86 1 76 4 97 0 45 3 90
4 27 0 42 3 48 2 17 1 46
1 67 0 98 4 48 3 27 2 62
4 28 1 12 3 19 0 80 2 50
1 63 0 94 2 98 3 50 4 80
4 14 0 75 2 50 1 41 3 55
4 72 2 18 1 37 3 79 0 61
`);

const flexibleJob = (row: string): MachineProblem['jobs'][number] => {
  const numbers = row.trim().split(/\s+/).map(Number);
  let at = 1;
  return Array.from({ length: numbers[0] ?? 0 }, () => {
    const count = numbers[at++] ?? 0;
    return Array.from({ length: count }, () => ({
      machine: numbers[at++] ?? -1,
      duration: numbers[at++] ?? -1,
    }));
  });
};

/** P. Brandimarte 1993, MK01: 10 jobs, 55 operations, 6 machines; the optimum is 40. Machines are counted from 0. */
const MK01: MachineProblem = {
  machines: 6,
  jobs: `
6 2 0 5 2 4 3 4 3 2 5 1 1 2 2 4 5 2 3 5 5 1 6 0 1 1 2 1 3 5 6 2 6 3 3
5 1 1 6 1 2 1 1 0 2 2 1 6 3 6 3 5 5 1 6 0 1
5 1 1 6 2 2 4 5 2 3 5 5 1 6 0 1 3 2 4 1 6 5 6 2 0 1 4 5
5 3 5 5 1 6 0 1 1 1 6 1 2 1 3 4 3 2 5 1 1 2 2 4 5 2
6 3 4 3 2 5 1 1 3 5 5 1 6 0 1 1 1 6 2 0 5 2 4 2 1 6 3 6 3 2 4 1 6 5 6
6 2 2 4 5 2 1 0 2 3 2 4 1 6 5 6 1 1 6 3 5 5 1 6 0 1 2 0 3 3 2
5 1 5 1 2 0 3 3 2 3 2 4 1 6 5 6 3 1 6 4 1 0 6 1 2 1
5 2 2 4 5 2 3 2 4 1 6 5 6 3 5 5 1 6 0 1 1 1 6 2 1 6 3 6
6 1 5 1 2 0 1 4 5 3 5 6 2 6 3 3 1 0 2 3 2 4 1 6 5 6 2 1 6 3 6
6 2 2 4 5 2 3 2 4 1 6 5 6 3 4 3 2 5 1 1 1 5 1 2 1 6 3 6 2 0 3 3 2
`
    .trim()
    .split('\n')
    .map(flexibleJob),
};

/** Bounded by moves alone, so that the answer does not depend on how fast this machine is. */
const moves = (maxIterations: number, seed = 1): MachineEffort => ({
  timeLimitMs: 1,
  now: () => 0,
  seed,
  maxIterations,
});

describe('classic job shops', () => {
  it.each([
    { name: 'FT06', problem: FT06, best: 55, budget: 20_000 },
    { name: 'LA02', problem: LA02, best: 655, budget: 100_000 },
    { name: 'MK01', problem: MK01, best: 40, budget: 100_000 },
  ])('$name is planned in its optimum, $best', ({ problem, best, budget }) => {
    for (const seed of [1, 2, 3]) {
      const solution = solveMachines(problem, { ...moves(budget, seed), target: best });
      expect(checkMachines(problem, solution)).toEqual([]);
      expect(solution.makespan).toBe(best);
      expect(solution.bound).toBeLessThanOrEqual(best);
    }
  });

  it('FT10 is planned in its optimum, 930, which took twenty-six years to prove', () => {
    const solution = solveMachines(FT10, { ...moves(2_000_000), target: 930 });
    expect(checkMachines(FT10, solution)).toEqual([]);
    expect(solution.makespan).toBe(930);
  });

  it('has the published one-machine bound of FT06, 52, and of FT10, 808', () => {
    // The preemptive one-machine bounds as commonly quoted, from memory; here also by oneMachineBound's own tests.
    expect(solveMachines(FT06, moves(1)).bound).toBe(52);
    expect(solveMachines(FT10, moves(1)).bound).toBe(808);
  });
});

describe('the answer', () => {
  it('is the same for a seed when bounded by moves', () => {
    for (const problem of [FT10, MK01]) {
      const first = solveMachines(problem, moves(5000, 7));
      expect(solveMachines(problem, moves(5000, 7))).toEqual(first);
    }
  });

  it('depends on the seed', () => {
    const spans = new Set(
      [1, 2, 3, 4].map((seed) => JSON.stringify(solveMachines(FT10, moves(500, seed)).starts)),
    );
    expect(spans.size).toBeGreaterThan(1);
  });

  it('is there when the time is up before the first move', () => {
    const solution = solveMachines(FT10, { timeLimitMs: 0, now: () => 0, seed: 1 });
    expect(checkMachines(FT10, solution)).toEqual([]);
  });

  it('comes no later than the clock allows', () => {
    let time = 0;
    const solution = solveMachines(FT10, { timeLimitMs: 50, now: () => ++time, seed: 1 });
    expect(time).toBeLessThan(60);
    expect(solution.firstMs).toBeGreaterThan(0);
    expect(solution.iterations).toBeGreaterThan(0);
  });

  it('stops at the target', () => {
    const solution = solveMachines(FT06, { ...moves(1_000_000), target: 60 });
    expect(solution.makespan).toBeLessThanOrEqual(60);
    expect(solution.iterations).toBeLessThan(20_000);
  });

  it('of nothing to do is over at once', () => {
    expect(solveMachines({ machines: 2, jobs: [] }, moves(10))).toMatchObject({ makespan: 0, bound: 0 });
    expect(solveMachines({ machines: 2, jobs: [[], []] }, moves(10)).starts).toEqual([[], []]);
  });

  it('keeps a job without operations in its place', () => {
    const solution = solveMachines(
      { machines: 1, jobs: [[], [[{ machine: 0, duration: 3 }]], []] },
      moves(10),
    );
    expect(solution.starts).toEqual([[], [0], []]);
    expect(solution.makespan).toBe(3);
  });
});

describe('a problem that cannot be', () => {
  it.each([
    { why: 'an operation without alternatives', jobs: [[[]]] },
    { why: 'a machine that is not there', jobs: [[[{ machine: 2, duration: 1 }]]] },
    { why: 'a negative duration', jobs: [[[{ machine: 0, duration: -1 }]]] },
    { why: 'half a unit', jobs: [[[{ machine: 0, duration: 0.5 }]]] },
    { why: 'more time than can be added', jobs: [[[{ machine: 0, duration: 2 ** 30 }]]] },
  ])('is refused: $why', ({ jobs }) => {
    expect(() => solveMachines({ machines: 2, jobs }, moves(10))).toThrow(RangeError);
  });
});
