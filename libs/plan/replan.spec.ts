import fc from 'fast-check';
import { tinyShop } from '../../test/builders/plan-problem.js';
import { checkPlan, explainPlan, measurePlan, offers, plan, replan } from './index.js';
import type { PlanAnswer, PlanProblem, PlanWeights, Replanned } from './index.js';

const effort = { timeLimitMs: 1, now: (): number => 0, seed: 1, lookLimit: 400 };

function planned(problem: PlanProblem): PlanAnswer {
  const made = plan(problem, effort);
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

function replanned(problem: PlanProblem): Replanned {
  const made = replan(problem, effort);
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

/** The same shop some time on: what should have begun by then has. */
function later(problem: PlanProblem, { assignments }: PlanAnswer, now: number): PlanProblem {
  const at = new Map(assignments.map((one) => [one.operation, one]));
  return {
    ...problem,
    now,
    previous: assignments,
    repairOrders: problem.repairOrders.map((order) => ({
      ...order,
      operations: order.operations.map((one) => {
        const own = at.get(one.id);
        if (own === undefined || own.start >= now) return one;
        const { start, end, bay, technicians, tools } = own;
        const started = { start, end, bay, technicians, tools };
        return { ...one, started, pin: null };
      }),
    })),
  };
}

describe('planning again', () => {
  it('changes nothing at all when nothing happened', () => {
    fc.assert(
      fc.property(tinyShop(4, 3), fc.integer({ min: 3, max: 20 }), (problem, now) => {
        const before = planned(problem);
        const after = replanned(later(problem, before, Math.max(now, problem.now)));
        if (before.unplaced.length > 0) return;
        expect(after).toMatchObject({ isChanged: false, changes: [] });
        expect(after.assignments).toEqual(before.assignments);
      }),
      { numRuns: 200 },
    );
  });

  it('keeps every rule and leaves what was started where it is, whatever happens', () => {
    fc.assert(
      fc.property(tinyShop(4, 3), fc.integer({ min: 3, max: 20 }), fc.nat(3), (problem, now, absent) => {
        const before = planned(problem);
        const shop = later(problem, before, Math.max(now, problem.now));
        const technicians = shop.technicians.map((one, k) =>
          k === absent ? { ...one, works: [[shop.now + 15, 120] as const] } : one,
        );
        const event = { ...shop, technicians };
        const after = replanned(event);
        expect(checkPlan(event, after)).toEqual([]);
        for (const { operations } of event.repairOrders)
          for (const { id, started } of operations)
            if (started != null)
              expect(after.assignments.find(({ operation }) => operation === id)).toMatchObject(started);
      }),
      { numRuns: 200 },
    );
  });

  it('moves less the more a change weighs', () => {
    const moves = (weight: number): number => {
      let sum = 0;
      for (const problem of fc.sample(tinyShop(6, 3), { numRuns: 60, seed: 4 })) {
        const before = planned(problem);
        const weights: Partial<PlanWeights> = {
          startMoved: weight,
          hourMoved: weight,
          technicianChanged: weight,
          bayChanged: weight,
        };
        const shop = { ...later(problem, before, Math.max(6, problem.now)), weights };
        const technicians = shop.technicians.map((one, k) =>
          k === 0 ? { ...one, works: [[shop.now + 15, 120] as const] } : one,
        );
        sum += replanned({ ...shop, technicians }).changes.filter(({ kind }) => kind === 'changed').length;
      }
      return sum;
    };
    const [light, heavy] = [moves(0), moves(100)];
    expect(heavy).toBeLessThan(light);
  });
});

const shop: PlanProblem = {
  now: 0,
  technicians: [
    {
      id: 'ida',
      works: [
        [0, 480],
        [1440, 1920],
      ],
      skills: [{ skill: 'brakes' }],
    },
    {
      id: 'jon',
      works: [
        [0, 480],
        [1440, 1920],
      ],
    },
  ],
  bays: [{ id: 'lift 1', lift: { kind: 'two-post', capacityKg: 3000 } }],
  repairOrders: [
    {
      id: 'first',
      promised: 120,
      vehicle: { weightKg: 1500 },
      operations: [{ id: 'a', minutes: 120, bay: { lift: true }, skills: ['brakes'] }],
    },
    {
      id: 'second',
      promised: 150,
      vehicle: { weightKg: 1500 },
      operations: [{ id: 'b', minutes: 60, bay: { lift: true }, skills: ['brakes'] }],
    },
    { id: 'third', operations: [{ id: 'c', minutes: 30, earliest: 200 }] },
  ],
};

describe('a car that stands apart', () => {
  it('keeps its bay against what is pinned there, until it is whole again', () => {
    const apart = (minutes: number): PlanProblem => ({
      now: 10,
      technicians: [
        { id: 'Ida', works: [[0, 600]] },
        { id: 'Bo', works: [[0, 600]] },
      ],
      bays: [{ id: 'lift' }],
      repairOrders: [
        {
          id: 'torn down',
          operations: [
            {
              ...{ id: 'off', minutes: 5, bay: {}, teardown: 'engine' },
              started: { start: 0, end: 10, bay: 'lift', technicians: [], tools: [] },
            },
            { id: 'on', minutes, bay: {}, teardown: 'engine', pin: { technicians: ['Ida'] } },
            { id: 'check', minutes: 20, bay: {}, teardown: 'engine', pin: { technicians: ['Ida'] } },
          ],
        },
        {
          id: 'other',
          operations: [
            { id: 'pinned', minutes: 30, bay: {}, pin: { start: 100, bay: 'lift', technicians: ['Bo'] } },
          ],
        },
      ],
    });
    for (const [minutes, unplaced] of [
      [60, []],
      [300, ['pinned']],
    ] as const) {
      const made = planned(apart(minutes));
      expect(checkPlan(apart(minutes), made)).toEqual([]);
      expect(made.unplaced.map(({ operation }) => operation)).toEqual(unplaced);
    }
  });
});

describe('saying why', () => {
  it('names what an operation waits for and what would free it', () => {
    const made = planned(shop);
    const { operations, late } = explainPlan(shop, made);
    const why = (id: string) => operations.find(({ operation }) => operation === id)?.waits[0];
    expect(why('a')).toMatchObject({ for: 'now' });
    expect(why('b')).toMatchObject({ until: 120, by: 'a', isOnly: true });
    expect(
      operations
        .find(({ operation }) => operation === 'b')
        ?.waits.map((wait) => wait.for)
        .sort(),
    ).toEqual(['bay', 'technician']);
    expect(why('c')).toMatchObject({ for: 'parts', until: 200 });
    expect(late).toMatchObject([
      { repairOrder: 'second', promised: 150, ready: 180, steps: [{ operation: 'b' }, { operation: 'a' }] },
    ]);
  });

  it('names a bay that is out of service, and of several who had a technician before only the last', () => {
    const one = (id: string, more: object = {}) => ({
      id: `car of ${id}`,
      vehicle: { weightKg: 1500 },
      operations: [{ id, minutes: 30, bay: { lift: true }, ...more }],
    });
    const closed: PlanProblem = {
      now: 0,
      technicians: [{ id: 'Ida', works: [[0, 600]] }],
      bays: [{ id: 'lift 1', lift: { kind: 'two-post', capacityKg: 2000 }, outOfService: [[100, 200]] }],
      repairOrders: [one('a'), one('b'), one('c'), one('d', { earliest: 80 })],
    };
    const at = (operation: string, start: number) => ({
      ...{ operation, start, end: start + 30, bay: 'lift 1', technicians: ['Ida'], tools: [] },
    });
    const { operations } = explainPlan(closed, {
      assignments: [at('a', 0), at('b', 30), at('c', 60), at('d', 200)],
      unplaced: [],
    });
    const waits = (id: string) =>
      operations
        .find(({ operation }) => operation === id)
        ?.waits.map(({ for: what, until, by }) => `${what} ${until} ${by ?? '-'}`);
    expect(waits('c')).toEqual(['technician 60 b', 'bay 60 b']);
    expect(waits('d')).toEqual(['bay 200 -', 'technician 90 c', 'bay 90 c', 'parts 80 -']);
  });

  it('offers a place for a car that may come, and changes nothing', () => {
    const made = planned(shop);
    const order = {
      ...{ id: 'new', vehicle: { weightKg: 1500 } },
      operations: [{ id: 'n', minutes: 100, minutesP80: 150, bay: { lift: true } }],
    };
    const before = structuredClone({ shop, made });
    const found = offers(shop, made, order, effort, { arrivals: [0, 1440], mayMove: true });
    if (!found.ok) throw new Error(found.fault.detail);
    expect({ shop, made }).toEqual(before);
    // The lift is taken until 180; a hundred minutes end at 280, and at 330 in four of five cases (lognormal through both).
    const [between, nextDay] = [
      found.value.find(({ start }) => start === 180),
      found.value.find(({ start }) => start === 1440),
    ];
    expect(between).toMatchObject({ bay: 'lift 1', ready: 280, moves: [], latenessAdded: 0 });
    expect(Math.abs((between?.readyP80 ?? 0) - 330)).toBeLessThan(25);
    expect(nextDay).toMatchObject({ ready: 1540 });
    const whole = { ...shop, repairOrders: [...shop.repairOrders, order] };
    for (const offer of found.value)
      if (offer.moves.length === 0)
        expect(checkPlan(whole, { assignments: [...made.assignments, ...offer.assignments] })).toEqual([]);
    expect(measurePlan(shop, made).lateness).toBe(30);
  });
});

it('leaves out what should go on where another car was worked on since', () => {
  const place = (start: number, end: number) => ({
    start,
    end,
    bay: 'lift',
    technicians: ['ida'],
    tools: [],
  });
  const apart = { minutes: 1, bay: {}, teardown: 'engine' };
  const problem: PlanProblem = {
    now: 3,
    technicians: [{ id: 'ida', works: [[0, 90]] }],
    bays: [{ id: 'lift', lift: { kind: 'two-post', capacityKg: 2000 } }],
    repairOrders: [
      {
        id: 'apart',
        operations: [
          { ...apart, id: 'off', started: place(1, 2) },
          { ...apart, id: 'on' },
        ],
      },
      { id: 'other', operations: [{ id: 'oil', minutes: 2, bay: {}, started: place(2, 4) }] },
    ],
  };
  const made = planned(problem);
  expect(made.unplaced).toEqual([
    {
      operation: 'on',
      why: 'Another vehicle was worked on in the bay where this one was taken apart.',
    },
  ]);
  expect(checkPlan(problem, made)).toEqual([]);
});
