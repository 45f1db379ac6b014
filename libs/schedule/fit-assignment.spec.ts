import fc from 'fast-check';
import { fitAssignment } from './fit-assignment.js';
import type { AssignmentToFit } from './fit-assignment.js';

const at = (time: string): Date => new Date(`2031-05-06T${time}:00Z`);

const wanted = (over: Partial<AssignmentToFit> = {}): AssignmentToFit => ({
  needs: { lift: true, liftKind: null, skills: [], tools: [] },
  vehicle: { weightKg: 1640 },
  bay: {
    name: 'Bay 2',
    inService: true,
    lift: { kind: 'two-post', capacityKg: 3000, inspectedOn: '2030-11-20' },
  },
  technician: { name: 'Ida Brandt', active: true, skills: [] },
  tools: [],
  period: { startsAt: at('08:00'), endsAt: at('10:00'), lastDay: '2031-05-06' },
  ...over,
});

const codes = (over: Partial<AssignmentToFit>): string[] =>
  fitAssignment(wanted(over)).faults.map(({ code }) => code);
const liftOf = (over: object): AssignmentToFit['bay'] => ({
  name: 'Bay 2',
  inService: true,
  lift: { kind: 'two-post', capacityKg: 3000, inspectedOn: '2030-11-20', ...over },
});
const NO_LIFT = { lift: false, liftKind: null, skills: [], tools: [] };

describe('fitting a work order into a bay', () => {
  it('finds nothing wrong with a light car on an inspected lift', () => {
    expect(fitAssignment(wanted())).toEqual({ faults: [], warnings: [] });
  });

  it('never puts a vehicle on a lift below its weight, to the kilogram', () => {
    expect(codes({ vehicle: { weightKg: 3000 } })).toEqual([]);
    expect(codes({ vehicle: { weightKg: 3001 } })).toEqual(['lift-capacity-exceeded']);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9000 }),
        fc.integer({ min: 1, max: 9000 }),
        (weightKg, capacityKg) => {
          const found = codes({ vehicle: { weightKg }, bay: liftOf({ capacityKg }) });
          expect(found.includes('lift-capacity-exceeded')).toBe(weightKg > capacityKg);
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('asks for the weight before a vehicle goes on a lift, and not when it stays on the ground', () => {
    expect(codes({ vehicle: { weightKg: null } })).toEqual(['vehicle-weight-unknown']);
    expect(codes({ vehicle: { weightKg: null }, needs: NO_LIFT })).toEqual([]);
  });

  it('refuses a lift on the first day after its twelve months, and one without an inspection', () => {
    expect(codes({ bay: liftOf({ inspectedOn: '2030-05-06' }) })).toEqual([]);
    expect(codes({ bay: liftOf({ inspectedOn: '2030-05-05' }) })).toEqual(['lift-inspection-overdue']);
    expect(codes({ bay: liftOf({ inspectedOn: null }) })).toEqual(['lift-inspection-overdue']);
    expect(codes({ bay: liftOf({ inspectedOn: null }), needs: NO_LIFT })).toEqual([]);
  });

  it('refuses a bay that has no lift, the wrong kind of lift, or is out of service', () => {
    expect(codes({ bay: { name: 'Bay 5', inService: true, lift: null } })).toEqual(['bay-without-lift']);
    expect(codes({ bay: { name: 'Bay 5', inService: false, lift: null }, needs: NO_LIFT })).toEqual([
      'bay-out-of-service',
    ]);
    const needs = { lift: true, liftKind: 'four-post', skills: [], tools: [] };
    expect(codes({ needs })).toEqual(['lift-kind-unsuitable']);
    expect(codes({ needs, bay: liftOf({ kind: 'four-post' }) })).toEqual([]);
  });

  it('keeps work that is done in one kind of bay out of the others, and takes any when none is named', () => {
    const bay = { name: 'Bay 3', inService: true, kind: 'flat', lift: null };
    expect(codes({ bay, needs: { ...NO_LIFT, bayKinds: ['alignment'] } })).toEqual(['bay-kind-not-suitable']);
    expect(codes({ bay, needs: { ...NO_LIFT, bayKinds: ['alignment', 'flat'] } })).toEqual([]);
    expect(codes({ bay, needs: { ...NO_LIFT, bayKinds: [] } })).toEqual([]);
  });

  it('keeps a vehicle out of a bay that it is too high for, to the millimetre', () => {
    const bay = { name: 'Bay 3', inService: true, maxHeightMm: 2100, lift: null };
    expect(codes({ bay, needs: NO_LIFT, vehicle: { weightKg: null, heightMm: 2100 } })).toEqual([]);
    expect(codes({ bay, needs: NO_LIFT, vehicle: { weightKg: null, heightMm: 2101 } })).toEqual([
      'vehicle-too-high',
    ]);
    expect(codes({ bay, needs: NO_LIFT, vehicle: { weightKg: null, heightMm: null } })).toEqual([]);
  });

  it('names every fault of a bad idea at once', () => {
    expect(
      codes({
        vehicle: { weightKg: 4000 },
        bay: { ...liftOf({ inspectedOn: '2029-01-01' }), inService: false },
        needs: { lift: true, liftKind: null, skills: ['brakes'], tools: ['spring compressor'] },
        period: { startsAt: at('10:00'), endsAt: at('08:00'), lastDay: '2031-05-06' },
      }),
    ).toEqual([
      'period-reversed',
      'bay-out-of-service',
      'lift-capacity-exceeded',
      'lift-inspection-overdue',
      'technician-not-qualified',
      'tool-missing',
    ]);
  });
});

describe('fitting a technician to a work order', () => {
  const needs = { ...NO_LIFT, skills: ['refrigerant', 'brakes'] };
  const holding = (...skills: [string, string | null][]): Partial<AssignmentToFit> => ({
    needs,
    technician: {
      name: 'Ida Brandt',
      active: true,
      skills: skills.map(([skill, expiresOn]) => ({ skill, expiresOn })),
    },
  });

  it('asks for every skill', () => {
    expect(codes(holding(['brakes', null], ['refrigerant', null]))).toEqual([]);
    expect(codes(holding(['brakes', null]))).toEqual(['technician-not-qualified']);
    expect(codes(holding())).toEqual(['technician-not-qualified', 'technician-not-qualified']);
  });

  it('takes a certificate through its last day and not beyond', () => {
    expect(codes(holding(['brakes', null], ['refrigerant', '2031-05-06']))).toEqual([]);
    expect(codes(holding(['brakes', null], ['refrigerant', '2031-05-05']))).toEqual([
      'technician-not-qualified',
    ]);
    const renewed = holding(['brakes', null], ['refrigerant', '2029-01-01'], ['refrigerant', '2033-01-01']);
    expect(codes(renewed)).toEqual([]);
  });

  it('does not give work to somebody who has left', () => {
    expect(codes({ technician: { name: 'Ida Brandt', active: false, skills: [] } })).toEqual([
      'technician-not-qualified',
    ]);
  });
});

describe('fitting a period', () => {
  it('rejects one that is reversed or empty', () => {
    for (const endsAt of [at('07:59'), at('08:00')]) {
      expect(codes({ period: { startsAt: at('08:00'), endsAt, lastDay: '2031-05-06' } })).toEqual([
        'period-reversed',
      ]);
    }
  });

  it('warns outside the shift and does not forbid', () => {
    const warn = (shifts: NonNullable<AssignmentToFit['shifts']>): number => {
      const fit = fitAssignment(wanted({ shifts }));
      expect(fit.faults).toEqual([]);
      return fit.warnings.length;
    };
    expect(warn([{ startsAt: at('07:00'), endsAt: at('16:00') }])).toBe(0);
    expect(
      warn([
        { startsAt: at('09:00'), endsAt: at('16:00') },
        { startsAt: at('07:00'), endsAt: at('09:00') },
      ]),
    ).toBe(0);
    expect(
      warn([
        { startsAt: at('07:00'), endsAt: at('09:00') },
        { startsAt: at('09:15'), endsAt: at('16:00') },
      ]),
    ).toBe(1);
    expect(warn([])).toBe(1);
  });

  it('asks for each special tool and for a working one', () => {
    const needs = { ...NO_LIFT, tools: ['spring compressor'] };
    const tool = { name: 'Spring compressor 1', tool: 'spring compressor', inService: true };
    expect(codes({ needs })).toEqual(['tool-missing']);
    expect(codes({ needs, tools: [tool] })).toEqual([]);
    expect(codes({ needs, tools: [{ ...tool, inService: false }] })).toEqual(['tool-out-of-service']);
  });
});
