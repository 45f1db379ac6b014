import fc from 'fast-check';
import { tinyShop } from '../../test/builders/plan-problem.js';
import { offers, plan, whyNoPlace } from './index.js';
import type { PlanProblem, PlanRepairOrder } from './index.js';

const effort = { timeLimitMs: 1, now: (): number => 0, seed: 1, lookLimit: 200 };

const shop: PlanProblem = {
  now: 0,
  technicians: [
    { id: 'Ada', works: [[0, 480]], skills: [{ skill: 'brakes' }, { skill: 'refrigerant', until: 100 }] },
    { id: 'Bo', works: [[0, 480]], skills: [{ skill: 'alignment' }] },
  ],
  bays: [
    { id: 'low', kind: 'lift', maxHeightMm: 2000, lift: { kind: 'two-post', capacityKg: 3000 } },
    {
      id: 'strong',
      kind: 'lift',
      maxHeightMm: 2600,
      lift: { kind: 'two-post', capacityKg: 4000, until: 90 },
    },
    { id: 'flat', kind: 'flat', maxHeightMm: 3000 },
  ],
  tools: [{ id: 'press 1', kind: 'press' }],
  repairOrders: [],
};

const order = (
  operation: Partial<PlanRepairOrder['operations'][number]>,
  vehicle: PlanRepairOrder['vehicle'] = { weightKg: 1500 },
  arrives = 0,
): PlanRepairOrder => ({ id: 'new', arrives, vehicle, operations: [{ id: 'n', minutes: 60, ...operation }] });

describe('why there is no place for a car', () => {
  it('names a skill that nobody holds, that no one person holds, or that runs out before', () => {
    const asked = (skills: string[], arrives = 0) => whyNoPlace(shop, order({ skills }, undefined, arrives));
    expect(asked(['hybrid'])).toEqual({ reason: 'nobody-qualified', operation: 'n', skills: ['hybrid'] });
    expect(asked(['brakes', 'alignment']).reason).toBe('nobody-qualified');
    expect(asked(['refrigerant'], 99).reason).toBe('no-room');
    expect(asked(['refrigerant'], 100).reason).toBe('nobody-qualified');
  });

  it('never speaks of a lift below the weight, and asks for a weight that nobody has told', () => {
    const lift = { bay: { lift: true } };
    expect(whyNoPlace(shop, order(lift, {}))).toEqual({ reason: 'weight-unknown', operation: 'n' });
    expect(whyNoPlace(shop, order(lift, { weightKg: 4001 }))).toEqual({
      ...{ reason: 'lift-too-weak', operation: 'n', weightKg: 4001, strongestKg: 4000 },
    });
    expect(whyNoPlace(shop, order(lift, { weightKg: 3500 })).reason).toBe('no-room');
    expect(whyNoPlace(shop, order(lift, { weightKg: 3500 }, 90)).reason).toBe('lift-not-inspected');
    expect(whyNoPlace(shop, order(lift, { weightKg: 3001, heightMm: 2700 })).reason).toBe('no-lift');
    const high = order({ bay: { kinds: ['lift'] } }, { heightMm: 2601 });
    expect(whyNoPlace(shop, high)).toMatchObject({ reason: 'too-high', heightMm: 2601, highestMm: 2600 });
    expect(whyNoPlace(shop, order({ bay: { kinds: ['alignment'] } })).reason).toBe('no-such-bay');
    expect(whyNoPlace(shop, order({ bay: { lift: true, liftKind: 'scissor' } })).reason).toBe('no-lift');
  });

  it('says when those who could do it have no working time', () => {
    const away = { ...shop, technicians: shop.technicians.map((one) => ({ ...one, works: [] })) };
    expect(whyNoPlace(away, order({ skills: ['brakes'] }))).toEqual({
      ...{ reason: 'nobody-works', operation: 'n' },
    });
    expect(whyNoPlace(shop, order({}, undefined, 480)).reason).toBe('nobody-works');
  });

  it('counts the units of a tool', () => {
    expect(whyNoPlace(shop, order({ tools: ['press'] })).reason).toBe('no-room');
    expect(whyNoPlace(shop, order({ tools: ['press', 'press'] }))).toMatchObject({
      ...{ reason: 'tool-missing', toolKind: 'press' },
    });
  });

  it('names the pin where that is in the way and not the shop, and what else is laid down there', () => {
    const pin = (laidDown: object, more: object = {}) =>
      whyNoPlace(shop, order({ skills: ['brakes'], bay: { lift: true }, pin: laidDown, ...more }));
    expect(pin({ technicians: ['Bo'] })).toEqual({
      ...{ reason: 'pinned', operation: 'n', pin: { technicians: ['Bo'] }, by: null, isSure: true },
    });
    expect(pin({ bay: 'flat' })).toMatchObject({ reason: 'pinned', pin: { bay: 'flat' } });
    // Whatever is pinned, a skill that nobody holds is missing all the same.
    expect(pin({ technicians: ['Bo'] }, { skills: ['hybrid'] }).reason).toBe('nobody-qualified');
    const here = { start: 100, bay: 'low', technicians: ['Ada'] };
    const stands: PlanRepairOrder = {
      ...{ id: 'other', arrives: 0, vehicle: { weightKg: 1500 } },
      operations: [{ id: 'o', minutes: 30, bay: { lift: true }, pin: { start: 150, bay: 'low' } }],
    };
    const taken = { ...shop, repairOrders: [stands] };
    const asked = order({ bay: { lift: true }, pin: here });
    expect(whyNoPlace(taken, asked)).toEqual({
      ...{ reason: 'pinned', operation: 'n', pin: here, by: 'o', isSure: true },
    });
    expect(whyNoPlace(shop, asked)).toMatchObject({ reason: 'pinned', by: null, isSure: false });
  });

  it('is told with the answer that there is no offer', () => {
    const found = offers(shop, { assignments: [], unplaced: [] }, order({ skills: ['hybrid'] }), effort);
    expect(found).toMatchObject({
      ok: false,
      fault: { code: 'no-place', facts: { why: { operation: 'n' } } },
    });
    const long = offers(shop, { assignments: [], unplaced: [] }, order({ minutes: 481 }), effort);
    expect(long).toMatchObject({ ok: false, fault: { facts: { why: { reason: 'no-room' } } } });
  });

  it('is said of a car exactly when the plan has no place for it although the calendars are long', () => {
    let impossible = 0;
    fc.assert(
      fc.property(tinyShop(1, 3), (made) => {
        const [car] = made.repairOrders;
        if (car === undefined) return;
        const alone = {
          ...car,
          operations: car.operations.map((one) => ({ ...one, teardown: null, pin: null })),
        };
        // For ever: then what has no place is ruled out by something else than room.
        const problem: PlanProblem = {
          ...made,
          technicians: made.technicians.map((one) => ({ ...one, works: [[0, 5000]] as const })),
          bays: made.bays.map((one) => ({ ...one, lift: one.lift && { ...one.lift, until: null } })),
          repairOrders: [alone],
        };
        const lasting = {
          ...problem,
          technicians: problem.technicians.map((one) => ({
            ...one,
            skills: one.skills?.map(({ skill }) => ({ skill })) ?? [],
          })),
        };
        const answer = plan(lasting, effort);
        if (!answer.ok) throw new Error(answer.fault.detail);
        const { reason } = whyNoPlace(lasting, alone);
        if (reason !== 'no-room') impossible++;
        expect(reason === 'no-room').toBe(answer.value.unplaced.length === 0);
      }),
      { numRuns: 600 },
    );
    expect(impossible).toBeGreaterThan(50);
  });
});
