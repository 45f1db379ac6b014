import fc from 'fast-check';
import { CAUTION_IDS, CAUTIONS, cautionsFor, isCautionId, type CautionFacts } from './index.js';

const plain: CautionFacts = { drivetrain: 'combustion', needsLift: false, skills: [], chosen: [] };
const ids = (facts: Partial<CautionFacts>): string[] => cautionsFor({ ...plain, ...facts }).map((c) => c.id);

// The triggers are the shop-safety notes of the project (lift practice of ANSI/ALI ALOIM, 40 CFR 82.34 for
// refrigerant); which caution goes with which kind of work is common practice, no single source.
describe('the cautions of a ticket', () => {
  it('are none for work that is none of this', () => {
    expect(ids({})).toEqual([]);
  });

  it.each<[string, Partial<CautionFacts>, string[]]>([
    ['a hybrid brings the high-voltage ones', { drivetrain: 'hybrid' }, ['HV-01', 'HV-02']],
    ['an electric car too', { drivetrain: 'electric' }, ['HV-01', 'HV-02']],
    ['work near an airbag brings the restraint one', { nearRestraints: true }, ['SRS-01']],
    ['refrigerant work is for certified people', { skills: ['general', '609'] }, ['AC-01']],
    ['fuel brings the fire one', { fuelMayEscape: true }, ['FUEL-01']],
    ['a lift brings weight, points and the shake', { needsLift: true }, ['LIFT-01', 'LIFT-02', 'LIFT-06']],
    ['an unsafe car is not road-tested', { unsafe: true }, ['STALL-01']],
  ])('%s', (_name, facts, expected) => {
    expect(ids(facts)).toEqual(expected);
  });

  it('keep what the shop chose, once, in the order of the catalogue', () => {
    expect(ids({ chosen: ['WHEEL-01', 'LIFT-01', 'WHEEL-01', 'OLD-99'], needsLift: true })).toEqual([
      'LIFT-01',
      'LIFT-02',
      'LIFT-06',
      'WHEEL-01',
    ]);
  });

  it('never get fewer when a further fact is known', () => {
    const facts = fc.record({
      drivetrain: fc.constantFrom('combustion', 'hybrid', 'electric'),
      needsLift: fc.boolean(),
      skills: fc.subarray(['609', 'brakes']),
      chosen: fc.subarray([...CAUTION_IDS]),
      nearRestraints: fc.boolean(),
      fuelMayEscape: fc.boolean(),
      unsafe: fc.boolean(),
    });
    fc.assert(
      fc.property(facts, (f) => {
        const few = ids({ ...f, unsafe: false, fuelMayEscape: false });
        const more = ids({ ...f, unsafe: true, fuelMayEscape: true });
        expect(more).toEqual(expect.arrayContaining(few));
        expect(new Set(more).size).toBe(more.length);
      }),
    );
  });

  it('all say where they come from', () => {
    expect(CAUTIONS.map((c) => c.id)).toEqual([...CAUTION_IDS]);
    for (const { text, source } of CAUTIONS) {
      expect(text.endsWith('.')).toBe(true);
      expect(source.length).toBeGreaterThan(8);
    }
    expect(isCautionId('LIFT-01')).toBe(true);
    expect(isCautionId('lift-01')).toBe(false);
  });
});
