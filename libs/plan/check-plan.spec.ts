import { checkPlan, plan } from './index.js';
import type { PlanAssignment, PlanProblem, PlanRule } from './index.js';

const DAY: readonly [number, number][] = [
  [0, 240],
  [300, 540],
];

/** One of everything, so that every rule has something to break. */
const problem: PlanProblem = {
  now: 10,
  technicians: [
    { id: 'ida', works: DAY, skills: [{ skill: 'brakes', until: 400 }], engaged: [[500, 540]] },
    { id: 'jon', works: DAY, skills: [{ skill: 'brakes' }, { skill: 'refrigerant' }] },
    { id: 'kim', works: DAY },
  ],
  bays: [
    {
      id: 'b1',
      kind: 'lift',
      lift: { kind: 'two-post', capacityKg: 3000, until: 600 },
      outOfService: [[450, 480]],
    },
    { id: 'b2', kind: 'lift', lift: { kind: 'four-post', capacityKg: 2000 } },
    { id: 'b3', kind: 'flat', maxHeightMm: 1900 },
  ],
  tools: [
    { id: 'k1', kind: 'press', outOfService: [[420, 440]] },
    { id: 'k2', kind: 'gauge' },
  ],
  repairOrders: [
    {
      id: 'r1',
      promised: 300,
      arrives: 20,
      vehicle: { weightKg: 2500, heightMm: 2000 },
      operations: [
        {
          id: 'off',
          minutes: 60,
          bay: { lift: true, liftKind: 'two-post' },
          skills: ['brakes'],
          teardown: 'axle',
          earliest: 30,
        },
        {
          id: 'on',
          minutes: 60,
          bay: { lift: true },
          after: ['off'],
          crew: 2,
          tools: ['press'],
          teardown: 'axle',
        },
      ],
    },
    {
      id: 'r2',
      vehicle: { weightKg: 1500, heightMm: 1400 },
      operations: [
        { id: 'here', minutes: 30, bay: { kinds: ['flat'] }, pin: { start: 100, technicians: ['kim'] } },
        { id: 'bench', minutes: 30, skills: ['refrigerant'] },
        {
          id: 'begun',
          minutes: 30,
          started: { start: 0, end: 40, bay: null, technicians: ['kim'], tools: [] },
        },
      ],
    },
  ],
};

const made = plan(problem, { timeLimitMs: 1, now: () => 0, seed: 1, lookLimit: 200 });
if (!made.ok) throw new Error(made.fault.detail);
const good = made.value.assignments;

const rules = (changes: Record<string, Partial<PlanAssignment>>): PlanRule[] =>
  checkPlan(problem, { assignments: good.map((at) => ({ ...at, ...changes[at.operation] })) }).map(
    ({ rule }) => rule,
  );

describe('checking a plan', () => {
  it('finds nothing in a good one', () => {
    expect(made.value.unplaced).toEqual([]);
    expect(checkPlan(problem, made.value)).toEqual([]);
  });

  it.each<[PlanRule, Record<string, Partial<PlanAssignment>>]>([
    ['before-now', { bench: { start: 5, end: 35 } }],
    ['before-parts', { off: { start: 25, end: 85 } }],
    ['before-arrival', { off: { start: 15, end: 75 } }],
    ['before-predecessor', { on: { start: 31, end: 91 } }],
    ['outside-shift', { bench: { start: 250, end: 280 } }],
    ['duration-wrong', { bench: { start: 200, end: 229 } }],
    ['technician-unknown', { bench: { technicians: ['lou'] } }],
    ['technician-engaged', { off: { technicians: ['ida'], start: 470, end: 530 } }],
    ['crew-size', { on: { technicians: ['ida'] } }],
    ['skill-missing', { bench: { technicians: ['ida'] } }],
    ['skill-expired', { off: { technicians: ['ida'], start: 400, end: 460 } }],
    ['bay-missing', { here: { bay: null } }],
    ['bay-not-needed', { bench: { bay: 'b3' } }],
    ['bay-unknown', { here: { bay: 'b9' } }],
    ['bay-kind', { here: { bay: 'b2' } }],
    ['vehicle-too-high', { on: { bay: 'b3' } }],
    ['lift-missing', { on: { bay: 'b3' } }],
    ['lift-kind', { off: { bay: 'b2' } }],
    ['vehicle-too-heavy', { on: { bay: 'b2' } }],
    ['lift-expired', { on: { start: 590, end: 650 } }],
    ['bay-closed', { on: { start: 460, end: 520 } }],
    ['tool-unknown', { on: { tools: ['k9'] } }],
    ['tools-wrong', { on: { tools: ['k2'] } }],
    ['tool-closed', { on: { start: 400, end: 460 } }],
    ['technician-overlap', { bench: { technicians: ['kim'], start: 100, end: 130 } }],
    ['vehicle-moved', { on: { bay: 'b2' } }],
    ['started-moved', { begun: { end: 41 } }],
    ['pin-broken', { here: { start: 101, end: 131 } }],
  ])('finds %s', (rule, changes) => {
    expect(rules(changes)).toContain(rule);
  });

  it('finds cars and tools that would be in two places', () => {
    const one = (id: string, bay: string | null, tools: string[] = []) => ({
      id,
      minutes: 10,
      bay: bay === null ? null : {},
      tools,
    });
    const at = (operation: string, technician: string, bay: string | null, tools: string[] = []) => ({
      ...{ operation, start: 0, end: 10, bay, technicians: [technician], tools },
    });
    const tiny = (second: 'r1' | 'r2', bays: [string | null, string | null], tools: string[]): PlanRule[] => {
      const [a, b] = [
        one(
          'a',
          bays[0],
          tools.map(() => 'gauge'),
        ),
        one(
          'b',
          bays[1],
          tools.map(() => 'gauge'),
        ),
      ];
      const repairOrders =
        second === 'r1'
          ? [{ id: 'r1', operations: [a, b] }]
          : [
              { id: 'r1', operations: [a] },
              { id: 'r2', operations: [b] },
            ];
      const shop = { ...problem, now: 0, repairOrders };
      return checkPlan(shop, {
        assignments: [at('a', 'jon', bays[0], tools), at('b', 'kim', bays[1], tools)],
      }).map(({ rule }) => rule);
    };
    expect(tiny('r2', ['b2', 'b2'], [])).toEqual(['bay-overlap']);
    expect(tiny('r1', ['b2', 'b1'], [])).toEqual(['vehicle-overlap', 'vehicle-moved']);
    expect(tiny('r2', [null, null], ['k2'])).toEqual(['tool-overlap']);
    expect(tiny('r2', [null, null], [])).toEqual([]);
  });

  it('finds what is planned twice, not at all, or unknown', () => {
    const [first, ...rest] = good;
    if (first === undefined) throw new Error('no plan');
    const found = (assignments: PlanAssignment[]): PlanRule[] =>
      checkPlan(problem, { assignments }).map(({ rule }) => rule);
    expect(found([...good, first])).toEqual(['operation-twice']);
    expect(found(rest)).toContain('operation-missing');
    expect(found([...good, { ...first, operation: 'nothing' }])).toEqual(['operation-unknown']);
  });
});
