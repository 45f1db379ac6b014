import { checkMachines } from './check-machines.js';
import type { MachinePlan, MachineProblem } from './machine-problem.js';

/** Two jobs; the second operation of the first has a choice. */
const PROBLEM: MachineProblem = {
  machines: 2,
  jobs: [
    [
      [{ machine: 0, duration: 3 }],
      [
        { machine: 0, duration: 4 },
        { machine: 1, duration: 2 },
      ],
    ],
    [[{ machine: 1, duration: 4 }], [{ machine: 0, duration: 1 }]],
  ],
};

const RIGHT: MachinePlan = {
  starts: [
    [0, 4],
    [0, 4],
  ],
  machines: [
    [0, 1],
    [1, 0],
  ],
  makespan: 6,
};

describe('the check of a plan of machines', () => {
  it('has nothing against a plan that can be carried out', () => {
    expect(checkMachines(PROBLEM, RIGHT)).toEqual([]);
  });

  it('lets two operations meet, and one that takes no time stand where another ends', () => {
    const problem: MachineProblem = {
      machines: 1,
      jobs: [
        [[{ machine: 0, duration: 2 }]],
        [[{ machine: 0, duration: 0 }]],
        [[{ machine: 0, duration: 1 }]],
      ],
    };
    expect(
      checkMachines(problem, { starts: [[0], [2], [2]], machines: [[0], [0], [0]], makespan: 3 }),
    ).toEqual([]);
  });

  it.each<{ rule: string; plan: Partial<MachinePlan> }>([
    { rule: 'plan-shape', plan: { starts: [[0, 4], [0]] } },
    { rule: 'plan-shape', plan: { machines: [[0, 1]] } },
    {
      rule: 'start-invalid',
      plan: {
        starts: [
          [0.5, 4],
          [0, 4],
        ],
      },
    },
    {
      rule: 'start-invalid',
      plan: {
        starts: [
          [-1, 4],
          [0, 4],
        ],
      },
    },
    {
      rule: 'machine-not-able',
      plan: {
        machines: [
          [1, 1],
          [1, 0],
        ],
      },
    },
    {
      rule: 'job-order',
      plan: {
        starts: [
          [0, 4],
          [0, 3],
        ],
      },
    },
    {
      rule: 'machine-overlap',
      plan: {
        starts: [
          [0, 3],
          [0, 4],
        ],
        makespan: 5,
      },
    },
    { rule: 'makespan-wrong', plan: { makespan: 5 } },
    { rule: 'makespan-wrong', plan: { makespan: 7 } },
  ])('finds a planted $rule', ({ rule, plan }) => {
    expect(checkMachines(PROBLEM, { ...RIGHT, ...plan }).map((found) => found.rule)).toEqual([rule]);
  });

  it('says where', () => {
    expect(
      checkMachines(PROBLEM, {
        ...RIGHT,
        starts: [
          [0, 3],
          [0, 4],
        ],
        makespan: 5,
      }),
    ).toEqual([{ rule: 'machine-overlap', job: 0, step: 1 }]);
  });

  it('counts an operation that takes no time inside another as an overlap', () => {
    const problem: MachineProblem = {
      machines: 1,
      jobs: [[[{ machine: 0, duration: 2 }]], [[{ machine: 0, duration: 0 }]]],
    };
    const plan = { starts: [[0], [1]], machines: [[0], [0]], makespan: 2 };
    expect(checkMachines(problem, plan)).toEqual([{ rule: 'machine-overlap', job: 1, step: 0 }]);
  });
});
