import fc from 'fast-check';
import { bestByTrying } from '../../test/builders/best-by-trying.js';
import { TINY_DAY, tinyShop } from '../../test/builders/plan-problem.js';
import { checkPlan, plan } from './index.js';
import type { PlanAnswer, PlanProblem } from './index.js';

const still = (): number => 0;
const effort = (lookLimit = 600, seed = 1) => ({ timeLimitMs: 1, now: still, seed, lookLimit });

function planned(problem: PlanProblem, lookLimit?: number, seed?: number): PlanAnswer {
  const made = plan(problem, effort(lookLimit, seed));
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

const sizeOf = ({ repairOrders }: PlanProblem): number =>
  repairOrders.reduce((sum, { operations }) => sum + operations.length, 0);

/** Ways to have more of something. */
const MORE: Readonly<Record<string, (problem: PlanProblem) => PlanProblem>> = {
  technician: (problem) => {
    const skills = ['brakes', 'refrigerant'].map((skill) => ({ skill }));
    const more = { id: 'more', works: [[0, TINY_DAY] as const], skills };
    return { ...problem, technicians: [...problem.technicians, more] };
  },
  bay: (problem) => ({
    ...problem,
    bays: [...problem.bays, { id: 'more', kind: 'lift', lift: { kind: 'two-post', capacityKg: 3000 } }],
  }),
  tool: (problem) => ({ ...problem, tools: [...(problem.tools ?? []), { id: 'more', kind: 'press' }] }),
  shift: (problem) => ({
    ...problem,
    technicians: problem.technicians.map((one) => ({ ...one, works: [[0, TINY_DAY] as const] })),
  }),
};

describe('a plan', () => {
  it('keeps every rule, whatever the shop', () => {
    fc.assert(
      fc.property(tinyShop(5, 4), (problem) => {
        expect(checkPlan(problem, planned(problem, 200))).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });

  it('is as little late as the best of all plans, found by trying them all', () => {
    let [compared, late] = [0, 0];
    fc.assert(
      fc.property(
        tinyShop(3, 2).filter((problem) => sizeOf(problem) <= 4),
        (problem) => {
          const best = bestByTrying(problem, TINY_DAY);
          const { unplaced, cost, latenessBound } = planned(problem, 2500);
          expect(unplaced.length === 0).toBe(best !== null);
          if (best === null) return;
          compared++;
          if (best > 0) late++;
          expect(cost.lateness).toBe(best);
          expect(latenessBound).toBeLessThanOrEqual(best);
        },
      ),
      { numRuns: 350, seed: 20260101 },
    );
    expect(compared).toBeGreaterThan(80);
    expect(late).toBeGreaterThan(20);
  });

  it('is no later at its best with one more technician, bay or tool, or a longer shift', () => {
    let compared = 0;
    fc.assert(
      fc.property(
        tinyShop(2, 2).filter((problem) => sizeOf(problem) <= 4),
        fc.constantFrom(...Object.values(MORE)),
        (problem, more) => {
          const best = bestByTrying(problem, TINY_DAY);
          if (best === null) return;
          compared++;
          const larger = more(problem);
          expect(bestByTrying(larger, TINY_DAY)).toBeLessThanOrEqual(best);
          expect(planned(larger, 2500).cost.lateness).toBeLessThanOrEqual(best);
        },
      ),
      { numRuns: 300 },
    );
    expect(compared).toBeGreaterThan(50);
  });

  it('is the same for the same seed', () => {
    fc.assert(
      fc.property(tinyShop(4, 3), fc.nat(), (problem, seed) => {
        const [one, other] = [planned(problem, 300, seed), planned(problem, 300, seed)];
        expect(one).toEqual(other);
      }),
      { numRuns: 60 },
    );
  });
});
