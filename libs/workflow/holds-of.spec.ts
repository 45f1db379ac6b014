import type { HoldFacts } from './hold-facts.js';
import { holdsOf } from './holds-of.js';

const lift = (
  capacityKg: number,
  inspectedOn: string | null = '2031-01-15',
): HoldFacts['bays'][number]['lift'] => ({
  kind: 'two-post',
  capacityKg,
  inspectedOn,
});

const bay = (over: Partial<HoldFacts['bays'][number]>): HoldFacts['bays'][number] => ({
  name: 'Bay 1',
  inService: true,
  lift: lift(3000),
  occupant: 'none',
  freeAt: null,
  ...over,
});

const facts = (over: Partial<HoldFacts> = {}): HoldFacts => ({
  approved: true,
  parts: [],
  needs: { lift: true, liftKind: null, skills: [], tools: [] },
  vehicle: { weightKg: 1640 },
  bays: [bay({})],
  technicians: [
    { name: 'Ida Brandt', active: true, skills: [{ skill: 'refrigerant', expiresOn: '2031-06-30' }] },
  ],
  tools: [],
  earlier: [],
  sublets: [],
  today: '2031-05-06',
  ...over,
});

const kinds = (over: Partial<HoldFacts>): string[] => holdsOf(facts(over)).map(({ kind }) => kind);
const details = (over: Partial<HoldFacts>): string[] => holdsOf(facts(over)).map(({ detail }) => detail);

describe('why a work order cannot start now', () => {
  it('is a part or work elsewhere that is overdue, with what to do about it and no time at which it is gone', () => {
    const part = { name: 'belt', neededHundredths: 100, receivedHundredths: 0, expectedAt: '2031-05-05' };
    const sublet = { title: 'Machining', returned: false, dueAt: '2031-05-04' };
    expect(
      holdsOf(facts({ parts: [{ ...part, isOverdue: true }], sublets: [{ ...sublet, isOverdue: true }] })),
    ).toEqual([
      {
        kind: 'parts',
        detail: 'Part overdue since 2031-05-05: 1 of 1 × belt. Ask the supplier and enter a new date.',
      },
      {
        kind: 'sublet',
        detail: 'Machining, at another firm, overdue since 2031-05-04. Ask the firm and enter a new date.',
      },
    ]);
  });

  it('is nothing when everything is there', () => {
    expect(holdsOf(facts())).toEqual([]);
  });

  it('is the decision as long as the owner has not said yes', () => {
    expect(kinds({ approved: false })).toEqual(['decision']);
  });

  it('is each part that is short, with its date where one is known', () => {
    const part = {
      name: 'front strut',
      neededHundredths: 200,
      receivedHundredths: 100,
      expectedAt: '2031-05-08',
    };
    const parts = [
      part,
      { ...part, name: 'coolant', neededHundredths: 450, receivedHundredths: 0, expectedAt: null },
      { ...part, name: 'top mount', receivedHundredths: 200 },
      { ...part, name: 'clip', receivedHundredths: 300 },
    ];
    expect(holdsOf(facts({ parts }))).toEqual([
      {
        kind: 'parts',
        detail: 'Waiting for 1 of 2 × front strut, expected 2031-05-08.',
        until: '2031-05-08',
      },
      { kind: 'parts', detail: 'Waiting for 4.5 of 4.5 × coolant, no date known.' },
    ]);
  });

  it('is the bay when all that suit are taken, until the first is free', () => {
    const bays = [
      bay({ occupant: 'another-vehicle', freeAt: '2031-05-06T15:00+02:00' }),
      bay({ name: 'Bay 2', occupant: 'another-vehicle', freeAt: '2031-05-06T11:30+02:00' }),
      bay({ name: 'Bay 3', lift: null }),
      bay({ name: 'Bay 4', lift: lift(1500) }),
    ];
    expect(holdsOf(facts({ bays }))).toEqual([
      {
        kind: 'bay',
        detail: 'All bays that suit are taken (Bay 1, Bay 2); the first is free at 2031-05-06T11:30+02:00.',
        until: '2031-05-06T11:30+02:00',
      },
    ]);
    expect(details({ bays: [bay({ occupant: 'another-vehicle' })] })).toEqual(['Bay 1 is taken.']);
  });

  it('is not the bay for a car that already stands in one that suits', () => {
    expect(kinds({ bays: [bay({ occupant: 'this-vehicle' })] })).toEqual([]);
    expect(kinds({ bays: [bay({ occupant: 'this-vehicle', lift: lift(1500) })] })).toEqual(['bay']);
  });

  it('says which thing about the lifts is in the way', () => {
    const noLift = { needs: { lift: false, liftKind: null, skills: [], tools: [] } };
    expect(details({ bays: [] })).toEqual(['No bay is in service.']);
    expect(details({ bays: [bay({ lift: null })] })).toEqual([
      'This work needs a lift and no lift is in service.',
    ]);
    expect(details({ vehicle: { weightKg: null } })).toEqual([
      'The weight of the vehicle is not recorded, so it may not go on a lift.',
    ]);
    expect(details({ vehicle: { weightKg: 3200 } })).toEqual([
      'No lift in service carries 3200 kg; the strongest is rated for 3000 kg.',
    ]);
    expect(details({ bays: [bay({ lift: lift(3000, '2030-05-05') })] })).toEqual([
      'No lift that carries 1640 kg is in service with a current inspection.',
    ]);
    expect(kinds({ ...noLift, vehicle: { weightKg: null }, bays: [bay({ lift: null })] })).toEqual([]);
    expect(kinds({ ...noLift, bays: [bay({ inService: false })] })).toEqual(['bay']);
  });

  it('is the technician when nobody active holds all skills with a current certificate', () => {
    const needs = { lift: false, liftKind: null, skills: ['refrigerant'], tools: [] };
    expect(kinds({ needs })).toEqual([]);
    expect(kinds({ needs, today: '2031-06-30' })).toEqual([]);
    expect(kinds({ needs, today: '2031-07-01' })).toEqual(['technician']);
    expect(kinds({ needs: { ...needs, skills: ['refrigerant', 'high voltage'] } })).toEqual(['technician']);
    expect(details({ technicians: [] })).toEqual(['No technician is active.']);
  });

  it('is the technician while everybody who may do it is away, until the first is back', () => {
    const needs = { lift: false, liftKind: null, skills: ['refrigerant'], tools: [] };
    const person = (name: string, awayUntil: string | null): HoldFacts['technicians'][number] => ({
      name,
      active: true,
      skills: [{ skill: 'refrigerant', expiresOn: null }],
      awayUntil,
    });
    const away = [person('Ida Brandt', '2031-05-08T07:30'), person('Sam Okoro', '2031-05-07T07:30')];
    expect(holdsOf(facts({ needs, technicians: away }))).toEqual([
      {
        kind: 'technician',
        detail:
          'Everybody who holds "refrigerant" is away (Ida Brandt, Sam Okoro); the first is back at 2031-05-07T07:30.',
        until: '2031-05-07T07:30',
      },
    ]);
    expect(kinds({ needs, technicians: [...away, person('Jon Vale', null)] })).toEqual([]);
    expect(kinds({ needs: { ...needs, skills: ['brakes'] }, technicians: away })).toEqual(['technician']);
    expect(details({ needs: { ...needs, skills: [] }, technicians: away })[0]).toMatch(
      /^Every technician is/,
    );
  });

  it('does not add up the skills of two people', () => {
    const person = (name: string, skill: string): HoldFacts['technicians'][number] => ({
      name,
      active: true,
      skills: [{ skill, expiresOn: null }],
    });
    const needs = { lift: false, liftKind: null, skills: ['refrigerant', 'high voltage'], tools: [] };
    const technicians = [person('Ida Brandt', 'refrigerant'), person('Sam Okoro', 'high voltage')];
    expect(kinds({ needs, technicians })).toEqual(['technician']);
  });

  it('is the tool when all units are in use or the shop has none', () => {
    const needs = { lift: false, liftKind: null, skills: [], tools: ['spring compressor'] };
    const tool = { tool: 'spring compressor', units: 2, unitsInUse: 1, freeAt: null };
    expect(kinds({ needs, tools: [tool] })).toEqual([]);
    expect(holdsOf(facts({ needs, tools: [{ ...tool, unitsInUse: 2, freeAt: '14:00' }] }))).toEqual([
      { kind: 'tool', detail: 'All 2 of "spring compressor" are in use until 14:00.', until: '14:00' },
    ]);
    expect(kinds({ needs, tools: [{ ...tool, units: 0, unitsInUse: 0 }] })).toEqual(['tool']);
    expect(kinds({ needs })).toEqual(['tool']);
  });

  it('is an earlier work order by its name, and a sublet that is not back', () => {
    expect(
      details({
        earlier: [
          { title: 'Subframe down', finished: false },
          { title: 'Drain coolant', finished: true },
        ],
        sublets: [
          { title: 'Cylinder head', returned: false, dueAt: '2031-05-09' },
          { title: 'Glass', returned: true, dueAt: null },
        ],
      }),
    ).toEqual([
      '"Subframe down" must be finished first.',
      'Cylinder head is still with the other firm, due 2031-05-09.',
    ]);
  });

  it('lists all reasons together, the decision first', () => {
    expect(
      kinds({
        approved: false,
        parts: [{ name: 'x', neededHundredths: 100, receivedHundredths: 0, expectedAt: null }],
        bays: [],
        technicians: [],
        needs: { lift: true, liftKind: null, skills: [], tools: ['spring compressor'] },
        earlier: [{ title: 'x', finished: false }],
        sublets: [{ title: 'x', returned: false, dueAt: null }],
      }),
    ).toEqual(['decision', 'parts', 'bay', 'technician', 'tool', 'earlier-work-order', 'sublet']);
  });
});
