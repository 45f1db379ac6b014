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

  it('is no later at its best with one more technician, bay or tool', () => {
    fc.assert(
      fc.property(
        tinyShop(2, 2).filter((problem) => sizeOf(problem) <= 4),
        (problem) => {
          const more = {
            ...problem,
            technicians: [
              ...problem.technicians,
              { id: 'more', works: [[0, TINY_DAY] as const], skills: [] },
            ],
            tools: [...(problem.tools ?? []), { id: 'more', kind: 'press' }],
          };
          const best = bestByTrying(problem, TINY_DAY);
          if (best === null) return;
          expect(bestByTrying(more, TINY_DAY)).toBeLessThanOrEqual(best);
          expect(planned(more, 2500).cost.lateness).toBeLessThanOrEqual(best);
        },
      ),
      { numRuns: 100 },
    );
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
