import fc from 'fast-check';
import { tinyShop } from '../../test/builders/plan-problem.js';
import { checkPlan, explainPlan, measurePlan, plan } from './index.js';
import type { Plan, PlanAssignment, PlanCost, PlanProblem } from './index.js';
import { modelOf } from './model-of.js';
import { readOut } from './read-out.js';
import { searchPlan } from './search-plan.js';
import { shortenStays } from './shorten-stays.js';

const effort = (lookLimit: number) => ({ timeLimitMs: 1, now: (): number => 0, seed: 1, lookLimit });

/** A plan as the search leaves it. */
function found(problem: PlanProblem, lookLimit = 3): Plan {
  const model = modelOf(problem);
  return readOut(model, searchPlan(model, effort(lookLimit)).draft);
}

const PARTS: readonly (keyof PlanCost)[] = [
  'unplaced',
  'frozenMoved',
  'lateness',
  'change',
  'blocked',
  'finish',
];

const at = (assignments: readonly PlanAssignment[], id: string): PlanAssignment | undefined =>
  assignments.find(({ operation }) => operation === id);

/** What must hold of a plan and the same with its stays shortened. */
function compare(problem: PlanProblem, before: Plan): number {
  const after = shortenStays(problem, before);
  const [was, is] = [measurePlan(problem, before), measurePlan(problem, after)];
  expect(checkPlan(problem, before)).toEqual([]);
  expect(checkPlan(problem, after)).toEqual([]);
  for (const part of PARTS) expect(is[part]).toBeLessThanOrEqual(was[part]);
  expect(is.finish).toBe(was.finish);
  expect(shortenStays(problem, after)).toEqual(after);
  expect(after.unplaced).toEqual(before.unplaced);
  for (const { operation, start, end, ...with_ } of before.assignments) {
    const now = at(after.assignments, operation);
    expect(now).toMatchObject(with_);
    expect(now?.start).toBeGreaterThanOrEqual(start);
    const former = at(problem.previous ?? [], operation);
    if (former?.start === start) expect(now).toMatchObject({ start, end });
  }
  if (is.blocked === was.blocked) expect(after).toEqual(before);
  return was.blocked - is.blocked;
}

describe('a plan with its stays shortened', () => {
  it('keeps every rule, costs no more in any part and is the same when it is done again', () => {
    let shorter = 0;
    fc.assert(
      fc.property(tinyShop(4, 4), (problem) => {
        if (compare(problem, found(problem)) > 0) shorter++;
      }),
      { numRuns: 500, seed: 5 },
    );
    expect(shorter).toBeGreaterThan(5);
  });

  it('leaves alone what stands where it was planned before', () => {
    let shorter = 0;
    fc.assert(
      fc.property(tinyShop(4, 4), fc.nat(20), fc.nat(20), fc.nat(20), (shop, frozenUntil, from, keep) => {
        const engaged = [[from, from + 9] as const];
        const technicians = shop.technicians.map((one, k) => (k === 0 ? { ...one, engaged } : one));
        // Some have a place in the previous plan, as the search leaves it, and some are new.
        const previous = found(shop).assignments.filter((_, k) => (keep >> (k % 5)) % 2 === 0);
        const problem = { ...shop, technicians, previous, frozenUntil };
        if (compare(problem, found(problem)) > 0) shorter++;
      }),
      { numRuns: 800, seed: 6 },
    );
    expect(shorter).toBeGreaterThan(5);
  });

  it('takes a car apart only when it can be put together again, and says so', () => {
    const problem: PlanProblem = {
      now: 0,
      technicians: [{ id: 'ida', works: [[0, 1000]] }],
      bays: [{ id: 'b', lift: { kind: 'two-post', capacityKg: 3000 } }],
      repairOrders: [
        {
          id: 'r',
          promised: 500,
          vehicle: { weightKg: 1500 },
          operations: [
            { id: 'off', minutes: 60, bay: { lift: true }, teardown: 'axle' },
            { id: 'bench', minutes: 30, after: ['off'] },
            { id: 'on', minutes: 60, bay: { lift: true }, teardown: 'axle', after: ['bench'], earliest: 400 },
          ],
        },
      ],
    };
    const made = plan(problem, effort(50));
    if (!made.ok) throw new Error(made.fault.detail);
    expect(made.value.assignments).toMatchObject([
      { operation: 'off', start: 310, end: 370 },
      { operation: 'bench', start: 370, end: 400 },
      { operation: 'on', start: 400, end: 460 },
    ]);
    expect(made.value.cost.blocked).toBe(30);
    expect(explainPlan(problem, made.value).operations[0]?.waits).toMatchObject([
      { for: 'plan', until: 310, words: 'Sooner the car would only stand apart for longer.' },
    ]);
    // Where it was promised so it stays.
    const previous = found(problem).assignments;
    expect(previous[0]?.start).toBe(0);
    const kept = plan({ ...problem, previous }, effort(50));
    expect(kept.ok && kept.value.assignments).toEqual(previous);
  });
});
