import fc from 'fast-check';
import { checkTardiness } from './check-tardiness.js';
import { latenessOf } from './lateness-of.js';
import { solveTardiness } from './solve-tardiness.js';
import { tardinessBound } from './tardiness-bound.js';
import type { TardinessEffort, TardinessSolution, TardyJob } from './tardiness-problem.js';

const effort = (maxDescents: number, seed = 1): TardinessEffort => ({
  timeLimitMs: Infinity,
  now: () => 0,
  seed,
  maxDescents,
});

/** Jobs with due dates that cannot all be kept; some take no time, weigh nothing or are due before time zero. */
const jobs = (minLength: number, maxLength: number): fc.Arbitrary<TardyJob[]> =>
  fc.array(
    fc.record({
      duration: fc.integer({ min: 0, max: 9 }),
      weight: fc.integer({ min: 0, max: 5 }),
      due: fc.integer({ min: -3, max: 5 * maxLength }),
    }),
    { minLength, maxLength },
  );

/** The least lateness of all orders, by trying them: for each set of jobs done first, the best job to end it. */
function leastByTrying(all: readonly TardyJob[]): number {
  const least = [0];
  const ends = [0];
  for (let set = 1; set < 2 ** all.length; set++) {
    let lowest = Infinity;
    all.forEach(({ duration, weight, due }, at) => {
      const rest = set - 2 ** at;
      if (Math.floor(set / 2 ** at) % 2 === 0) return;
      const end = (ends[rest] ?? 0) + duration;
      ends[set] = end;
      lowest = Math.min(lowest, (least[rest] ?? 0) + weight * Math.max(0, end - due));
    });
    least.push(lowest);
  }
  return least.at(-1) ?? 0;
}

/** The same by trying one order after the other; slower, but with nothing to get wrong. */
function leastOfAllOrders(all: readonly TardyJob[]): number {
  let least = Infinity;
  const visit = (left: readonly number[], time: number, lateness: number): void => {
    if (left.length === 0) least = Math.min(least, lateness);
    for (const at of left) {
      const { duration = 0, weight = 0, due = 0 } = all[at] ?? {};
      const end = time + duration;
      visit(
        left.filter((other) => other !== at),
        end,
        lateness + weight * Math.max(0, end - due),
      );
    }
  };
  visit([...all.keys()], 0, 0);
  return least;
}

describe('jobs of one machine', () => {
  it('few of them are done with the least lateness there is', () => {
    fc.assert(
      fc.property(jobs(0, 7), fc.nat(), (all, seed) => {
        const solution = solveTardiness({ jobs: all }, effort(40, seed));
        const least = leastByTrying(all);
        expect(solution.lateness).toBe(least);
        expect(solution.bound).toBeLessThanOrEqual(least);
        expect(checkTardiness({ jobs: all }, solution)).toEqual([]);
      }),
      { numRuns: 2000 },
    );
  });

  it('have the least lateness that trying all orders finds', () => {
    fc.assert(
      fc.property(jobs(0, 6), (all) => {
        expect(leastByTrying(all)).toBe(leastOfAllOrders(all));
      }),
      { numRuns: 300 },
    );
  });

  it('many of them get an order that the checker has nothing against, never below the bound', () => {
    fc.assert(
      fc.property(jobs(10, 60), fc.nat(), (all, seed) => {
        const solution = solveTardiness({ jobs: all }, effort(20, seed));
        expect(checkTardiness({ jobs: all }, solution)).toEqual([]);
        expect(solution.bound).toBeLessThanOrEqual(solution.lateness);
        expect(latenessOf(all, solution.order)).toBe(solution.lateness);
      }),
      { numRuns: 300 },
    );
  });

  it('are ordered the same for the same seed and number of descents', () => {
    fc.assert(
      fc.property(jobs(10, 40), fc.nat(), (all, seed) => {
        const again = (): TardinessSolution => solveTardiness({ jobs: all }, effort(30, seed));
        expect(again()).toEqual(again());
      }),
      { numRuns: 100 },
    );
  });

  it('are never later with more descents', () => {
    fc.assert(
      fc.property(jobs(10, 40), fc.nat(), (all, seed) => {
        const few = solveTardiness({ jobs: all }, effort(2, seed));
        const many = solveTardiness({ jobs: all }, effort(40, seed));
        expect(many.lateness).toBeLessThanOrEqual(few.lateness);
      }),
      { numRuns: 100 },
    );
  });

  it('are left as they are once they are no later than asked for', () => {
    fc.assert(
      fc.property(jobs(10, 40), fc.nat(), (all, seed) => {
        const { lateness } = solveTardiness({ jobs: all }, effort(40, seed));
        const stopped = solveTardiness({ jobs: all }, { ...effort(40, seed), target: lateness });
        expect(stopped.lateness).toBe(lateness);
        const easy = solveTardiness({ jobs: all }, { ...effort(40, seed), target: Infinity });
        expect(easy.descents).toBe(0);
      }),
      { numRuns: 100 },
    );
  });

  it('are left as they are once so many fresh starts came to the same lateness', () => {
    fc.assert(
      fc.property(jobs(8, 12), fc.nat(), (all, seed) => {
        const limit = 5000;
        const stopped = solveTardiness({ jobs: all }, { ...effort(limit, seed), agreeing: 3 });
        expect(stopped.descents).toBeLessThan(limit);
        expect(stopped.lateness).toBe(leastByTrying(all));
      }),
      { numRuns: 20 },
    );
  });

  it('that are late in any order are put by weight per duration, as W. E. Smith 1956 proves', () => {
    fc.assert(
      fc.property(jobs(2, 30), fc.nat(), (all, seed) => {
        const late = all.map((job) => ({ ...job, duration: job.duration + 1, due: 0 }));
        const sorted = [...late.keys()].sort((a, b) => {
          const [one, other] = [late[a], late[b]];
          return (one?.duration ?? 0) * (other?.weight ?? 0) - (other?.duration ?? 0) * (one?.weight ?? 0);
        });
        const least = latenessOf(late, sorted);
        expect(solveTardiness({ jobs: late }, effort(20, seed))).toMatchObject({
          lateness: least,
          bound: least,
        });
      }),
      { numRuns: 200 },
    );
  });
});

describe('the bound on lateness', () => {
  it('is never above the least there is, whatever order it starts from', () => {
    fc.assert(
      fc.property(jobs(1, 8), (all) => {
        const order = [...all.keys()];
        expect(tardinessBound(all, order, latenessOf(all, order))).toBeLessThanOrEqual(leastByTrying(all));
      }),
      { numRuns: 1000 },
    );
  });
});

describe('the check of an order', () => {
  const all: readonly TardyJob[] = [
    { duration: 3, weight: 2, due: 2 },
    { duration: 2, weight: 5, due: 2 },
    { duration: 0, weight: 1, due: 9 },
  ];
  // By hand: the second job ends at 2 on time, the first at 5, three units late at two each.
  const right = { order: [1, 0, 2], lateness: 6 };

  it('has nothing against one that is right', () => {
    expect(checkTardiness({ jobs: all }, right)).toEqual([]);
  });

  it.each([
    ['a job left out', { ...right, order: [1, 0] }, 'job 2 is done 0 times instead of once'],
    ['a job done twice', { ...right, order: [1, 0, 2, 1] }, 'job 1 is done 2 times instead of once'],
    ['a job from nowhere', { ...right, order: [1, 0, 2, 3] }, 'job 3 does not exist'],
    ['a lateness too low', { ...right, lateness: 5 }, 'the lateness is 6, not 5 as claimed'],
    [
      'another order with the same claim',
      { ...right, order: [0, 1, 2] },
      'the lateness is 17, not 6 as claimed',
    ],
  ])('finds %s', (_, claimed, broken) => {
    expect(checkTardiness({ jobs: all }, claimed)).toEqual([broken]);
  });
});

describe('the clock', () => {
  it('ends the search when the time is up, with an order all the same', () => {
    const many = Array.from({ length: 40 }, (_, at) => ({
      duration: 1 + ((at * 7) % 13),
      weight: 1 + (at % 9),
      due: (at * 31) % 150,
    }));
    let time = 0;
    const solution = solveTardiness({ jobs: many }, { timeLimitMs: 50, now: () => time++, seed: 1 });
    expect(time).toBeLessThan(70);
    expect(checkTardiness({ jobs: many }, solution)).toEqual([]);
  });
});
