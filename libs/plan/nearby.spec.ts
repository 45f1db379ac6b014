import fc from 'fast-check';
import { bestByTrying } from '../../test/builders/best-by-trying.js';
import { TINY_DAY, tinyShop } from '../../test/builders/plan-problem.js';
import { checkPlan, diffPlans, explainPlan, measurePlan, offers, plan, replan } from './index.js';
import type { Period, PlanAnswer, PlanProblem, Replanned } from './index.js';
import { readyP80 } from './ready-spread.js';

const effort = (lookLimit = 400, seed = 1) => ({ timeLimitMs: 1, now: (): number => 0, seed, lookLimit });

function planned(problem: PlanProblem, lookLimit?: number): PlanAnswer {
  const made = plan(problem, effort(lookLimit));
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

function replanned(problem: PlanProblem, seed?: number): Replanned {
  const made = replan(problem, effort(400, seed));
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

/** Everybody is away for a while. */
const away = (problem: PlanProblem, from: number, to: number): PlanProblem => ({
  ...problem,
  technicians: problem.technicians.map((one, k) =>
    k === 0 ? { ...one, engaged: [[from, to] as const] } : one,
  ),
});

describe('planning again around a plan', () => {
  it('is the same for the same seed', () => {
    fc.assert(
      fc.property(tinyShop(4, 3), fc.nat(), (problem, seed) => {
        const shop = { ...away(problem, 5, 15), previous: planned(problem).assignments };
        expect(replanned(shop, seed)).toEqual(replanned(shop, seed));
      }),
      { numRuns: 60 },
    );
  });

  it('leaves what is frozen where it is when a car comes that is wanted at once', () => {
    let frozen = 0;
    fc.assert(
      fc.property(tinyShop(4, 3), fc.integer({ min: 4, max: 40 }), (problem, frozenUntil) => {
        const { assignments: previous, unplaced } = planned(problem);
        if (unplaced.length > 0) return;
        const order = { id: 'new', promised: 1, weight: 9, operations: [{ id: 'new 1', minutes: 3 }] };
        const repairOrders = [...problem.repairOrders, order];
        const shop = { ...problem, previous, frozenUntil, repairOrders };
        const made = replanned(shop);
        const at = new Map(made.assignments.map((one) => [one.operation, one]));
        expect(checkPlan(shop, made)).toEqual([]);
        for (const was of previous) {
          if (was.start >= frozenUntil) continue;
          frozen++;
          expect(at.get(was.operation)).toEqual(was);
        }
      }),
      { numRuns: 200 },
    );
    expect(frozen).toBeGreaterThan(50);
  });

  it('lets frozen work go that its technician would leave half-way for the day', () => {
    const place = { bay: 'lift', technicians: ['ida'], tools: [] };
    const problem: PlanProblem = {
      now: 0,
      frozenUntil: 120,
      technicians: [
        {
          id: 'ida',
          works: [
            [0, 60],
            [540, 1000],
          ],
        },
        { id: 'jon', works: [[0, 1000]] },
      ],
      bays: [{ id: 'lift', lift: { kind: 'two-post', capacityKg: 2000 } }],
      repairOrders: [{ id: 'r', promised: 200, operations: [{ id: 'o', minutes: 90, bay: {} }] }],
      previous: [{ operation: 'o', start: 30, end: 120, ...place }],
    };
    const after = replan(
      problem,
      { timeLimitMs: 1, now: () => 0, seed: 1, lookLimit: 200 },
      { latenessBefore: 0 },
    );
    expect(after.ok && after.value.cost).toMatchObject({ lateness: 0, frozenMoved: 0 });
    expect(after.ok && after.value.assignments[0]).toMatchObject({ technicians: ['jon'] });
  });

  it('keeps frozen work where a better plan would move it', () => {
    const problem: PlanProblem = {
      now: 0,
      technicians: [{ id: 'ida', works: [[0, 1000]] }],
      bays: [],
      repairOrders: [
        { id: 'calm', promised: 900, operations: [{ id: 'long', minutes: 200 }] },
        { id: 'urgent', promised: 60, weight: 10, operations: [{ id: 'short', minutes: 50 }] },
      ],
      previous: [{ operation: 'long', start: 10, end: 210, bay: null, technicians: ['ida'], tools: [] }],
    };
    const startOf = (shop: PlanProblem): number | undefined =>
      replanned(shop).assignments.find(({ operation }) => operation === 'long')?.start;
    expect(startOf(problem)).not.toBe(10);
    expect(startOf({ ...problem, frozenUntil: 11 })).toBe(10);
    expect(measurePlan({ ...problem, frozenUntil: 11 }, replanned(problem)).frozenMoved).toBe(1);
  });

  it('is never less late than the best of all plans, nor later than it was', () => {
    let compared = 0;
    fc.assert(
      fc.property(
        tinyShop(3, 2).filter(
          ({ repairOrders }) => repairOrders.reduce((sum, one) => sum + one.operations.length, 0) <= 4,
        ),
        (problem) => {
          const weights = { startMoved: 0, hourMoved: 0, technicianChanged: 0, bayChanged: 0 };
          const before = planned(problem, 20);
          const best = bestByTrying(problem, TINY_DAY);
          if (best === null || best === 0) return;
          const shop = { ...problem, previous: before.assignments, weights };
          const made = replan(shop, effort(2500), { improve: true });
          if (!made.ok) throw new Error(made.fault.detail);
          compared++;
          expect(made.value.cost.lateness).toBeGreaterThanOrEqual(best);
          expect(made.value.cost.lateness).toBeLessThanOrEqual(before.cost.lateness);
        },
      ),
      { numRuns: 150, seed: 7 },
    );
    expect(compared).toBeGreaterThan(10);
  });
});

describe('days of 1380 and 1500 minutes', () => {
  it('are only periods: work rests over the night on which the clocks change and goes on', () => {
    // Shifts from 8:00 to 16:00; the second day begins an hour early or late for whoever counts minutes.
    for (const day of [1380, 1500]) {
      const works: Period[] = [
        [480, 960],
        [day + 480, day + 960],
      ];
      const problem: PlanProblem = {
        now: 900,
        technicians: [{ id: 'ida', works }],
        bays: [],
        repairOrders: [{ id: 'one', promised: day + 500, operations: [{ id: 'a', minutes: 100 }] }],
      };
      const made = planned(problem);
      expect(made.assignments).toMatchObject([{ start: 900, end: day + 520 }]);
      expect(made.cost.lateness).toBe(20);
      expect(replanned({ ...problem, previous: made.assignments }).isChanged).toBe(false);
    }
  });
});

describe('when a car is ready in four of five cases', () => {
  it('goes by the calendars of all who work on it', () => {
    const works = (until: number): Period[] => [
      [0, until],
      [1000, 2000],
    ];
    const problem: PlanProblem = {
      now: 0,
      technicians: [
        { id: 'ida', works: works(400) },
        { id: 'jon', works: works(110) },
      ],
      bays: [],
      repairOrders: [{ id: 'one', operations: [{ id: 'a', minutes: 100, minutesP80: 150, crew: 2 }] }],
    };
    const at = { operation: 'a', start: 0, end: 100, bay: null, technicians: ['ida', 'jon'], tools: [] };
    // 150 minutes together: 110 on the first day, about 40 more from 1000 on.
    const ready = readyP80(problem, [at], 'one', 1);
    expect(ready).toBeGreaterThan(1020);
    expect(ready).toBeLessThan(1070);
  });
});

describe('offers and words', () => {
  it('leave the plan as it is, whatever the shop', () => {
    fc.assert(
      fc.property(tinyShop(3, 3), fc.integer({ min: 0, max: 30 }), (problem, arrives) => {
        const made = planned(problem, 100);
        const before = structuredClone({ problem, made });
        const order = { id: 'new', operations: [{ id: 'new 1', minutes: 4 }] };
        const found = offers(problem, made, order, effort(50), { arrivals: [arrives], mayMove: true });
        expect({ problem, made }).toEqual(before);
        if (!found.ok) return;
        const whole = { ...problem, repairOrders: [...problem.repairOrders, order] };
        for (const { moves, assignments } of found.value)
          if (moves.length === 0)
            expect(checkPlan(whole, { ...made, assignments: [...made.assignments, ...assignments] })).toEqual(
              [],
            );
      }),
      { numRuns: 100 },
    );
  });

  it('say that a promise, the vehicle or its own time is why work is elsewhere', () => {
    const place = (operation: string, start: number, end: number, bay: string) => ({
      ...{ operation, start, end, bay, tools: [] },
      technicians: [`t ${bay}`],
    });
    const bays = ['b1', 'b2', 'b3'];
    const operation = (id: string) => ({ id, minutes: 60, bay: {} });
    const problem: PlanProblem = {
      now: 100,
      technicians: bays.map((bay) => ({ id: `t ${bay}`, works: [[0, 900]] })),
      bays: bays.map((id) => ({ id })),
      repairOrders: [
        { id: 'late', promised: 300, operations: [operation('tyres')] },
        { id: 'filler', operations: [operation('belt')] },
        { id: 'two', operations: [operation('silencer'), operation('alignment')] },
        { id: 'begun', operations: [operation('rest')] },
        { id: 'apart', operations: ['off', 'on'].map((id) => ({ ...operation(id), teardown: 'mount' })) },
        { id: 'pushed', operations: [operation('pushed')] },
      ],
      previous: [
        place('pushed', 500, 560, 'b2'),
        place('tyres', 600, 660, 'b1'),
        place('alignment', 200, 260, 'b2'),
        place('rest', 50, 110, 'b3'),
      ],
    };
    const assignments = [
      place('tyres', 200, 260, 'b1'),
      place('belt', 600, 660, 'b1'),
      place('silencer', 200, 260, 'b3'),
      place('alignment', 260, 320, 'b2'),
      place('rest', 100, 160, 'b3'),
      place('off', 400, 460, 'b2'),
      place('on', 700, 760, 'b2'),
      place('pushed', 500, 560, 'b3'),
    ];
    const changes = diffPlans(problem, { ...planned(problem), assignments });
    const why = new Map(changes.map((change) => [change.operation, [change.why, change.by]]));
    expect(why.get('tyres')).toEqual(['There its promise would be missed.', null]);
    expect(why.get('alignment')).toEqual(['"silencer" is done on the vehicle then.', 'silencer']);
    expect(why.get('pushed')).toEqual(['The vehicle of "on" stands apart there then.', 'on']);
    expect(why.get('rest')).toEqual(['Its time has begun, and nobody is at it.', null]);
  });

  it('do not say that work can start whose time has passed while the work before it goes on', () => {
    const problem: PlanProblem = {
      now: 100,
      technicians: [{ id: 't1', works: [[0, 900]] }],
      bays: [],
      repairOrders: [
        {
          id: 'r1',
          operations: [
            {
              ...{ id: 'pipes', minutes: 60 },
              started: { start: 20, end: 150, bay: null, technicians: ['t1'], tools: [] },
            },
            { id: 'tyres', minutes: 60, after: ['pipes'] },
          ],
        },
      ],
    };
    const late = (start: number) => ({
      ...planned(problem),
      assignments: [
        { operation: 'pipes', start: 20, end: 150, bay: null, technicians: ['t1'], tools: [] },
        { operation: 'tyres', start, end: start + 60, bay: null, technicians: ['t1'], tools: [] },
      ],
    });
    for (const start of [80, 100])
      expect(
        explainPlan(problem, late(start)).operations.find(({ operation }) => operation === 'tyres')?.waits,
      ).toMatchObject([{ for: 'work-order', by: 'pipes', until: 150, words: '"pipes" must be over first.' }]);
  });

  it('use the names that are given, and hold every id in fields', () => {
    const problem: PlanProblem = {
      now: 0,
      technicians: [{ id: 't1', works: [[0, 900]] }],
      bays: [],
      repairOrders: [
        { id: 'r1', promised: 50, weight: 5, operations: [{ id: 'x1', minutes: 60 }] },
        { id: 'r2', operations: [{ id: 'x2', minutes: 60 }] },
      ],
      previous: [{ operation: 'x2', start: 0, end: 60, bay: null, technicians: ['t1'], tools: [] }],
    };
    const names = (id: string): string => `<${id}>`;
    const made = replanned(problem);
    const changes = diffPlans(problem, made, { names });
    expect(changes.find(({ operation }) => operation === 'x2')).toMatchObject({
      by: 'x1',
      why: '<x1> is there now.',
    });
    const waits = explainPlan(problem, made, { names }).operations.flatMap((one) => one.waits);
    expect(waits).toContainEqual(
      expect.objectContaining({ for: 'technician', id: 't1', by: 'x1', words: '<t1> is taken until then.' }),
    );
    expect(JSON.stringify([waits, changes])).not.toContain('\\"');
    const [broken] = checkPlan(
      problem,
      { assignments: made.assignments.map((one) => ({ ...one, start: 0, end: 60 })) },
      { names },
    );
    expect(broken?.detail).toContain('<t1>');
  });
});
