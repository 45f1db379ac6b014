import { checkProject } from './check-project.js';
import type { ProjectPlan, ProjectProblem } from './project-problem.js';

/** One before two others that share two units; the last has a quick mode that uses up more. */
const PROBLEM: ProjectProblem = {
  renewable: [2],
  nonrenewable: [4],
  activities: [
    { modes: [{ duration: 2, holds: [1], consumes: [1] }], successors: [1, 2] },
    { modes: [{ duration: 3, holds: [1], consumes: [1] }], successors: [] },
    {
      modes: [
        { duration: 1, holds: [2], consumes: [3] },
        { duration: 4, holds: [1], consumes: [2] },
      ],
      successors: [],
    },
  ],
};

const RIGHT: ProjectPlan = { starts: [0, 2, 2], modes: [0, 0, 1], makespan: 6 };

describe('the check of a plan of a project', () => {
  it('has nothing against a plan that can be carried out', () => {
    expect(checkProject(PROBLEM, RIGHT)).toEqual([]);
  });

  it.each<[string, Partial<ProjectPlan>, string]>([
    ['a start left out', { starts: [0, 2] }, '3 activities need as many starts and modes'],
    ['a mode left out', { modes: [0, 0] }, '3 activities need as many starts and modes'],
    ['a mode that there is not', { modes: [0, 0, 2] }, 'activity 2 has no mode 2'],
    ['a half mode', { modes: [0, 0, 0.5] }, 'activity 2 has no mode 0.5'],
    ['a start before the beginning', { starts: [-1, 2, 2] }, 'activity 0 starts at -1'],
    ['a start between two units', { starts: [0, 2.5, 2] }, 'activity 1 starts at 2.5'],
    ['an activity too early', { starts: [0, 1, 2] }, 'activity 1 starts before activity 0 is done'],
    ['a makespan that is too good', { makespan: 5 }, 'the project is done at 6, not 5 as claimed'],
    [
      'too much held at a time',
      // The quick mode holds both units while the other activity still runs; both kinds of resources are short then.
      { starts: [0, 2, 4], modes: [0, 0, 0], makespan: 5 },
      'resource 0 holds 3 of 2 at 4',
    ],
    ['too much used up', { starts: [0, 2, 5], modes: [0, 0, 0] }, 'resource 0 uses up 5 of 4'],
  ])('finds %s', (_, change, broken) => {
    expect(checkProject(PROBLEM, { ...RIGHT, ...change })).toContain(broken);
  });

  it('finds nothing but what is wrong', () => {
    expect(checkProject(PROBLEM, { ...RIGHT, starts: [0, 2, 5], modes: [0, 0, 0] })).toEqual([
      'resource 0 uses up 5 of 4',
    ]);
    expect(checkProject(PROBLEM, { ...RIGHT, starts: [0, 1, 2] })).toEqual([
      'activity 1 starts before activity 0 is done',
    ]);
  });
});
