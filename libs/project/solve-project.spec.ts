import { checkProject } from './check-project.js';
import type { ProjectActivity, ProjectEffort, ProjectProblem } from './project-problem.js';
import { solveProject } from './solve-project.js';

const EFFORT: ProjectEffort = { timeLimitMs: Infinity, now: () => 0, seed: 1, maxSchedules: 3000 };

const plain = (duration: number, holds: number, successors: number[] = []): ProjectActivity => ({
  modes: [{ duration, holds: [holds], consumes: [] }],
  successors,
});

/** Forty activities in chains of four that crowd one resource. */
const CROWD: ProjectProblem = {
  renewable: [7],
  nonrenewable: [],
  activities: Array.from({ length: 40 }, (_, at) =>
    plain(1 + ((at * 7) % 9), 1 + ((at * 5) % 4), at % 4 < 3 ? [at + 1] : []),
  ),
};

describe('a project that is planned', () => {
  it('is done at once when it has nothing to do', () => {
    expect(
      solveProject({ activities: [], renewable: [], nonrenewable: [] }, { ...EFFORT, timeLimitMs: 0 }),
    ).toMatchObject({ starts: [], makespan: 0, bound: 0, feasible: true });
  });

  it('is left as it is once it is done as early as asked for', () => {
    const best = solveProject(CROWD, EFFORT);
    const lax = solveProject(CROWD, { ...EFFORT, target: 1000 });
    expect(lax.schedules).toBe(3);
    expect(lax.makespan).toBeLessThanOrEqual(1000);
    const stopped = solveProject(CROWD, { ...EFFORT, target: best.makespan });
    expect(stopped.makespan).toBe(best.makespan);
    expect(stopped.schedules).toBeLessThanOrEqual(best.schedules);
  });

  it('stops when it is proven best, however much time there is', () => {
    const { makespan, bound, schedules } = solveProject(
      { activities: [plain(3, 1, [1]), plain(4, 1)], renewable: [1], nonrenewable: [] },
      { ...EFFORT, maxSchedules: Infinity },
    );
    expect({ makespan, bound }).toEqual({ makespan: 7, bound: 7 });
    expect(schedules).toBe(3);
  });

  it('has a plan even when there is no time', () => {
    let time = 0;
    const solution = solveProject(CROWD, { timeLimitMs: 0, now: () => time++, seed: 1 });
    expect(checkProject(CROWD, solution)).toEqual([]);
    expect(solution.schedules).toBeLessThan(40);
  });

  it('stops when the time is up', () => {
    let time = 0;
    const limits = { timeLimitMs: 30, now: () => time++, seed: 1, maxSchedules: 1e6 };
    // The bound is not reached here, so only the clock ends it.
    const hard: ProjectProblem = {
      renewable: [2],
      nonrenewable: [],
      activities: [plain(2, 1), plain(2, 2), plain(3, 1)],
    };
    expect(solveProject(hard, limits)).toMatchObject({ makespan: 5, bound: 5 });
    expect(
      solveProject({ ...hard, activities: [plain(2, 2), plain(2, 1), plain(2, 1), plain(2, 1)] }, limits),
    ).toMatchObject({ makespan: 6, bound: 5 });
    expect(time).toBeLessThan(50);
  });

  it.each<[string, ProjectProblem, string]>([
    [
      'activities wait for each other',
      { activities: [plain(1, 1, [1]), plain(1, 1, [0])], renewable: [1], nonrenewable: [] },
      'some activities wait for each other in a circle',
    ],
    [
      'a successor does not exist',
      { activities: [plain(1, 1, [1])], renewable: [1], nonrenewable: [] },
      'a successor does not exist',
    ],
    [
      'an activity needs more than there is',
      { activities: [plain(1, 1), plain(1, 2)], renewable: [1], nonrenewable: [] },
      'activity 1 has no mode that the resources allow',
    ],
  ])('is refused when %s', (_, problem, words) => {
    expect(() => solveProject(problem, EFFORT)).toThrow(new RangeError(words));
  });

  it('says so when no choice of modes is allowed though each mode is', () => {
    // Each of three activities uses up two of one kind or of the other, and there are two of one and three of the other.
    const activity: ProjectActivity = {
      modes: [
        { duration: 1, holds: [1], consumes: [2, 0] },
        { duration: 1, holds: [1], consumes: [0, 2] },
      ],
      successors: [],
    };
    const solution = solveProject(
      { activities: [activity, activity, activity], renewable: [1], nonrenewable: [2, 3] },
      EFFORT,
    );
    expect(solution.feasible).toBe(false);
  });
});
