import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkPlan, plan } from '#libs/plan';
import type { PlanProblem } from '#libs/plan';
import { solveByConstraints } from './constraint-solver.js';
import { FORMATS } from './formats.js';
import { readPlanFile } from './plan-format.js';
import { planProgram } from './plan-program.js';
import { machinesAsProject, projectConstraints } from './project-constraints.js';
import { shopLike, smallShop, TIGHT_WEEKS } from './shop-like.js';

interface Proven {
  readonly shops: readonly { readonly seed: number; readonly load: number; readonly lateness: number }[];
}

const { shops } = JSON.parse(
  readFileSync(join(process.cwd(), 'apps/bench/schedule/proven-shops.json'), 'utf8'),
) as Proven;

/** By looks alone, so that the answer depends on nothing but the seed. */
const effort = (lookLimit: number, seed = 1) => ({ timeLimitMs: 1, now: () => 0, seed, lookLimit });

function planned(problem: PlanProblem, lookLimit: number, seed?: number) {
  const made = plan(problem, effort(lookLimit, seed));
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

describe('small generated shops', () => {
  it('are planned close to what a general solver proved, and never below it', () => {
    let exact = 0;
    for (const { seed, load, lateness } of shops) {
      const problem = shopLike({ ...smallShop(seed), load }, seed);
      const made = planned(problem, 15_000);
      expect(checkPlan(problem, made)).toEqual([]);
      expect(made.cost.lateness).toBeGreaterThanOrEqual(lateness);
      expect(made.latenessBound).toBeLessThanOrEqual(lateness);
      if (made.cost.lateness === lateness) exact++;
    }
    expect(exact).toBeGreaterThanOrEqual(shops.length * 0.6);
  });
});

describe('a generated week', () => {
  const problem = shopLike(TIGHT_WEEKS, 1);

  it('is the same for the same seed, and so is its plan for the same looks', () => {
    expect(shopLike(TIGHT_WEEKS, 1)).toEqual(problem);
    expect(shopLike(TIGHT_WEEKS, 2)).not.toEqual(problem);
    const made = planned(problem, 3000, 7);
    expect(planned(problem, 3000, 7)).toEqual(made);
    expect(checkPlan(problem, made)).toEqual([]);
    expect(made.unplaced).toEqual([]);
  });

  it('has sixty repair orders, about 220 operations, eight lifts and ten technicians', () => {
    expect(problem.repairOrders.length).toBe(60);
    expect(problem.bays.length).toBe(8);
    expect(problem.technicians.length).toBe(10);
    const count = problem.repairOrders.flatMap(({ operations }) => operations).length;
    expect(count).toBeGreaterThan(180);
    expect(count).toBeLessThan(260);
  });
});

describe('a plan problem as a file', () => {
  it('is read by what is in it', () => {
    const text = JSON.stringify(shopLike(smallShop(5), 5));
    expect(FORMATS.filter(({ read }) => read(text) !== null).map(({ name }) => name)).toEqual([
      'plan problem',
    ]);
    expect(readPlanFile(text)).toEqual(JSON.parse(text));
    for (const other of [
      '',
      '[]',
      '{"technicians": []}',
      '{"technicians": [], "bays": [], "repairOrders": [{}]}',
    ])
      expect(readPlanFile(other)).toBeNull();
  });

  it('is told to a constraint solver where it can be', () => {
    const program = planProgram(shopLike(smallShop(5), 5), 20);
    expect(program).toContain('var 0..20: objective;');
    // Rest is told by the calendars, in quarters of an hour as all its times are.
    const week = planProgram(shopLike(TIGHT_WEEKS, 1));
    expect(week).toContain('array[1..160] of int: opens = [');
    expect(week).toContain('output ["objective=\\(15 * objective)"];');
    // Two who work together are beyond the model.
    const [order] = shopLike(smallShop(5), 5).repairOrders;
    const operations = (order?.operations ?? []).map((one) => ({ ...one, crew: 2 as const }));
    const shop = { ...shopLike(smallShop(5), 5), repairOrders: [{ id: 'r', operations }] };
    expect(planProgram(shop)).toBeNull();
  });
});

describe('a general solver with twenty times as much time', () => {
  it('finds nothing better, with shifts and without', async () => {
    const SECONDS = 20;
    let solved = 0;
    for (const hasShifts of [false, true])
      for (const seed of [5, 18]) {
        const problem = shopLike({ ...smallShop(seed), hasShifts }, seed);
        const program = planProgram(problem) ?? '';
        const now = (): number => performance.now();
        const made = plan(problem, { timeLimitMs: 1000, now, seed: 1 });
        const { objective, proven } = await solveByConstraints(program, SECONDS);
        if (objective !== null) solved++;
        if (!made.ok) throw new Error(made.fault.detail);
        expect(made.value.cost.lateness).toBeLessThanOrEqual(objective ?? Infinity);
        // Proof makes the model and the planner agree on what a plan is.
        if (proven) expect(made.value.cost.lateness).toBe(objective);
      }
    expect(solved).toBeGreaterThan(0);
  }, 300_000);
});

describe('a shop of machines as a project', () => {
  it('has an activity for each operation and a mode for each machine that can do it', () => {
    const project = machinesAsProject({
      machines: 2,
      jobs: [
        [
          [
            { machine: 0, duration: 3 },
            { machine: 1, duration: 4 },
          ],
          [{ machine: 1, duration: 2 }],
        ],
      ],
    });
    expect(project).toEqual({
      activities: [
        {
          modes: [
            { duration: 3, holds: [1, 0], consumes: [] },
            { duration: 4, holds: [0, 1], consumes: [] },
          ],
          successors: [1],
        },
        { modes: [{ duration: 2, holds: [0, 1], consumes: [] }], successors: [] },
      ],
      renewable: [1, 1],
      nonrenewable: [],
    });
    expect(projectConstraints(project)).toContain('constraint x1_1 + x1_2 = 1;');
  });
});
