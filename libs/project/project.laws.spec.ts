import fc from 'fast-check';
import { checkProject } from './check-project.js';
import type { ActivityMode, ProjectEffort, ProjectPlan, ProjectProblem } from './project-problem.js';
import { solveProject } from './solve-project.js';

const effort = (maxSchedules: number, seed = 1): ProjectEffort => ({
  timeLimitMs: Infinity,
  now: () => 0,
  seed,
  maxSchedules,
});

interface Sizes {
  readonly activities: readonly [number, number];
  readonly modes: number;
  readonly longest: number;
}

/** Projects whose activities stand in any order, some without a plan at all. */
function projects({ activities: [fewest, most], modes, longest }: Sizes): fc.Arbitrary<ProjectProblem> {
  const units = (count: number, top: number): fc.Arbitrary<number[]> =>
    fc.array(fc.integer({ min: 0, max: top }), { minLength: count, maxLength: count });
  return fc
    .record({
      size: fc.integer({ min: fewest, max: most }),
      held: fc.integer({ min: 0, max: 2 }),
      used: fc.integer({ min: 0, max: 2 }),
    })
    .chain(({ size, held, used }) => {
      const mode: fc.Arbitrary<ActivityMode> = fc.record({
        duration: fc.integer({ min: 0, max: longest }),
        holds: units(held, 3),
        consumes: units(used, 3),
      });
      const each = <T>(one: fc.Arbitrary<T>): fc.Arbitrary<T[]> =>
        fc.array(one, { minLength: size, maxLength: size });
      return fc.record({
        modes: each(fc.array(mode, { minLength: 1, maxLength: modes })),
        order: fc.shuffledSubarray([...Array(size).keys()], { minLength: size, maxLength: size }),
        links: each(fc.array(fc.integer({ min: 1, max: 6 }), { maxLength: 2 })),
        renewable: units(held, 3).map((all) => all.map((one) => one + 2)),
        nonrenewable: units(used, 2 * size),
      });
    })
    .map(({ modes, order, links, renewable, nonrenewable }) => ({
      renewable,
      nonrenewable,
      activities: modes.map((own, at) => {
        const place = order.indexOf(at);
        return {
          modes: own,
          successors: (links[at] ?? []).flatMap((step) => order[place + step] ?? []),
        };
      }),
    }));
}

/** The earliest end over all choices of modes and all orders in which activities can be put, by trying them all. */
function bestByTrying({ activities, renewable, nonrenewable }: ProjectProblem): number {
  let best = Infinity;
  const placed: { readonly start: number; readonly end: number; readonly holds: readonly number[] }[] = [];
  const ends = new Map<number, number>();
  const isFree = (start: number, { duration, holds }: ActivityMode): boolean =>
    [...Array(duration).keys()].every((step) =>
      renewable.every((limit, resource) => {
        const time = start + step;
        const held = placed.filter((other) => other.start <= time && time < other.end);
        const sum = held.reduce((total, other) => total + (other.holds[resource] ?? 0), 0);
        return sum + (holds[resource] ?? 0) <= limit;
      }),
    );
  const tryAll = (left: readonly number[], last: number): void => {
    if (last >= best) return;
    if (ends.size === activities.length) {
      best = last;
      return;
    }
    activities.forEach(({ modes }, at) => {
      if (ends.has(at)) return;
      const before = activities.flatMap((other, from) => (other.successors.includes(at) ? [from] : []));
      if (!before.every((from) => ends.has(from))) return;
      for (const mode of modes) {
        const rest = left.map((units, resource) => units - (mode.consumes[resource] ?? 0));
        if (rest.some((units) => units < 0)) continue;
        if (renewable.some((limit, resource) => (mode.holds[resource] ?? 0) > limit && mode.duration > 0))
          continue;
        let start = Math.max(0, ...before.map((from) => ends.get(from) ?? 0));
        while (!isFree(start, mode)) start++;
        const end = start + mode.duration;
        placed.push({ start, end, holds: mode.holds });
        ends.set(at, end);
        tryAll(rest, Math.max(last, end));
        ends.delete(at);
        placed.pop();
      }
    });
  };
  tryAll(nonrenewable, 0);
  return best;
}

/** Whether a plan can be carried out, looked at unit by unit. */
function isSound({ activities, renewable, nonrenewable }: ProjectProblem, plan: ProjectPlan): boolean {
  const chosen = activities.flatMap(({ modes, successors }, at) => {
    const mode = modes[plan.modes[at] ?? -1];
    const start = plan.starts[at] ?? -1;
    return mode === undefined || start < 0
      ? []
      : [{ ...mode, start, end: start + mode.duration, successors }];
  });
  if (chosen.length < activities.length) return false;
  const last = chosen.reduce((latest, { end }) => Math.max(latest, end), 0);
  const isInOrder = chosen.every(({ end, successors }) =>
    successors.every((next) => (chosen[next]?.start ?? -1) >= end),
  );
  const isHeld = [...Array(last).keys()].every((time) =>
    renewable.every((limit, resource) => {
      const units = chosen.map((one) =>
        one.start <= time && time < one.end ? (one.holds[resource] ?? 0) : 0,
      );
      return units.reduce((sum, held) => sum + held, 0) <= limit;
    }),
  );
  const isLeft = nonrenewable.every(
    (limit, resource) =>
      chosen.map(({ consumes }) => consumes[resource] ?? 0).reduce((sum, units) => sum + units, 0) <= limit,
  );
  return isInOrder && isHeld && isLeft && plan.makespan === last;
}

const TINY: Sizes = { activities: [0, 4], modes: 3, longest: 3 };
const SINGLE: Sizes = { activities: [1, 6], modes: 1, longest: 4 };
const MIDDLING: Sizes = { activities: [8, 30], modes: 3, longest: 9 };

/** A solution, or null when the project is refused because it cannot be done. */
function solved(problem: ProjectProblem, limits: ProjectEffort): ReturnType<typeof solveProject> | null {
  try {
    return solveProject(problem, limits);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

describe('a project', () => {
  it.each([
    ['whose activities have a choice of modes', TINY, 2500],
    ['whose activities have one mode', SINGLE, 1500],
  ])(
    '%s is done as early as trying everything finds, and is refused only when nothing can be',
    (_, sizes, numRuns) => {
      let withPlan = 0;
      fc.assert(
        fc.property(projects(sizes), fc.nat(), (problem, seed) => {
          const best = bestByTrying(problem);
          // The last plans of the tiniest are found by chance: long enough not to miss one, over once it is there.
          const solution = solved(problem, {
            ...effort(Number.isFinite(best) ? 60_000 : 900, seed),
            target: Number.isFinite(best) ? best : 0,
          });
          if (best === Infinity) {
            expect(solution?.feasible ?? false).toBe(false);
            return;
          }
          withPlan++;
          expect(solution).toMatchObject({ makespan: best, feasible: true });
          expect(checkProject(problem, solution ?? { starts: [], modes: [], makespan: 0 })).toEqual([]);
          expect(solution?.bound).toBeLessThanOrEqual(best);
        }),
        { numRuns },
      );
      expect(withPlan).toBeGreaterThan(numRuns / 3);
    },
  );

  it('of any size gets a plan that the checker has nothing against, never before the bound', () => {
    fc.assert(
      fc.property(projects(MIDDLING), fc.nat(), (problem, seed) => {
        const solution = solved(problem, effort(200, seed));
        if (solution === null) return;
        expect(solution.bound).toBeLessThanOrEqual(solution.makespan);
        const broken = checkProject(problem, solution);
        if (solution.feasible) expect(broken).toEqual([]);
        // What is used up too much is the only thing that may be wrong, and it is said.
        else expect(broken.filter((rule) => !rule.includes('uses up'))).toEqual([]);
        expect(solution.feasible).toBe(broken.length === 0);
      }),
      { numRuns: 300 },
    );
  });

  it('is planned the same for the same seed and number of schedules', () => {
    fc.assert(
      fc.property(projects(MIDDLING), fc.nat(), (problem, seed) => {
        expect(solved(problem, effort(300, seed))).toEqual(solved(problem, effort(300, seed)));
      }),
      { numRuns: 100 },
    );
  });

  it('never ends later with more schedules', () => {
    fc.assert(
      fc.property(projects(MIDDLING), fc.nat(), (problem, seed) => {
        const [few, many] = [solved(problem, effort(30, seed)), solved(problem, effort(600, seed))];
        if (few?.feasible !== true) return;
        expect(many?.makespan ?? Infinity).toBeLessThanOrEqual(few.makespan);
      }),
      { numRuns: 100 },
    );
  });
});

describe('the check of a plan of a project', () => {
  it('finds a flaw exactly where one is found unit by unit', () => {
    const verdicts = { sound: 0, broken: 0 };
    fc.assert(
      fc.property(
        projects(TINY).chain((problem) => {
          const all = problem.activities;
          return fc.record({
            problem: fc.constant(problem),
            starts: fc.tuple(...all.map(() => fc.integer({ min: 0, max: 7 }))),
            modes: fc.tuple(...all.map(({ modes }) => fc.integer({ min: 0, max: modes.length - 1 }))),
            wrong: fc.constantFrom(0, 0, 0, 1, -1),
          });
        }),
        ({ problem, starts, modes, wrong }) => {
          const ends = starts.map(
            (start, at) => start + (problem.activities[at]?.modes[modes[at] ?? 0]?.duration ?? 0),
          );
          const plan = { starts, modes, makespan: Math.max(0, ...ends) + wrong };
          const isRight = isSound(problem, plan);
          verdicts[isRight ? 'sound' : 'broken']++;
          expect(checkProject(problem, plan).length === 0).toBe(isRight);
        },
      ),
      { numRuns: 3000 },
    );
    expect(verdicts.sound).toBeGreaterThan(200);
    expect(verdicts.broken).toBeGreaterThan(200);
  });
});
