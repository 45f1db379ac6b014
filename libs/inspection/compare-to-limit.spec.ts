import fc from 'fast-check';
import { compareToLimit } from './compare-to-limit.js';
import type { Limit } from './compare-to-limit.js';
import type { Unit } from './units.js';
import { worstAgainstLimit } from './worst-against-limit.js';

const US_TREAD: Limit = { comparator: 'min', value: '2', unit: 'in/32', source: '49 CFR 570.9' };
const UK_TREAD: Limit = { comparator: 'min', value: '1.6', unit: 'mm', source: 'C&U reg. 27' };
const STEER_TREAD: Limit = { comparator: 'min', value: '4', unit: 'in/32', source: '49 CFR 570.62(a)' };
const DRIVE_TREAD: Limit = { comparator: 'min', value: '2', unit: 'in/32', source: '49 CFR 570.62(a)' };

const outcome = (value: string, unit: Unit, limit: Limit): string => {
  const result = compareToLimit({ value, unit }, limit);
  return result.ok ? result.value : result.fault.code;
};

describe('a reading against a limit', () => {
  it('tells the two legal tread minima apart at 1.59 mm', () => {
    // 2/32 in is 1.5875 mm: 49 CFR 570.9 accepts what the Construction and Use Regulations (reg. 27) reject.
    expect(outcome('1.59', 'mm', US_TREAD)).toBe('within');
    expect(outcome('1.59', 'mm', UK_TREAD)).toBe('beyond');
    expect(outcome('2', 'in/32', UK_TREAD)).toBe('beyond');
    expect(outcome('1.5875', 'mm', US_TREAD)).toBe('within');
    expect(outcome('1.5874', 'mm', US_TREAD)).toBe('beyond');
  });

  it('rejects 3/32 on a steer axle and accepts it on a drive axle', () => {
    // 49 CFR 570.62(a), vehicles above 10,000 lb.
    expect(outcome('3', 'in/32', STEER_TREAD)).toBe('beyond');
    expect(outcome('3', 'in/32', DRIVE_TREAD)).toBe('within');
  });

  it('knows that n/32 in is n times 0.79375 mm', () => {
    // 1 in = 25.4 mm exactly (NIST SP 811); products worked by hand.
    const table: [string, string][] = [
      ['1', '0.79375'],
      ['3', '2.38125'],
      ['5', '3.96875'],
      ['10', '7.9375'],
    ];
    for (const [thirtySeconds, mm] of table) {
      for (const comparator of ['min', 'max'] as const) {
        const limit: Limit = { comparator, value: mm, unit: 'mm', source: 'NIST SP 811' };
        expect(outcome(thirtySeconds, 'in/32', limit)).toBe('within');
      }
    }
  });

  it('converts pressure and temperature exactly', () => {
    const atMost = (value: string, unit: Unit): Limit => ({
      comparator: 'max',
      value,
      unit,
      source: 'NIST SP 811',
    });
    // 1 psi = 6894.757 293 168 Pa (NIST SP 811 appendix B.8 prints 6.894 757 E+03).
    expect(outcome('1', 'psi', atMost('6.894757293', 'kPa'))).toBe('beyond');
    expect(outcome('1', 'psi', atMost('6.894757294', 'kPa'))).toBe('within');
    expect(outcome('2.4', 'bar', atMost('240', 'kPa'))).toBe('within');
    expect(outcome('212', '°F', atMost('100', '°C'))).toBe('within');
    expect(outcome('212.1', '°F', atMost('100', '°C'))).toBe('beyond');
    expect(outcome('-40', '°F', atMost('-40', '°C'))).toBe('within');
  });

  it('refuses a reading that is no number or of another dimension', () => {
    for (const bad of ['', ' 4', '4,5', '1e3', 'NaN', '0x10', '--1', '4.', '.5']) {
      expect(outcome(bad, 'mm', UK_TREAD)).toBe('reading-not-a-number');
    }
    expect(outcome('4', 'kPa', UK_TREAD)).toBe('unit-does-not-fit');
  });

  it('never judges a worse measurement better', () => {
    const hundredths = fc.nat(2000);
    const text = (n: number): string => (n / 100).toFixed(2);
    const units = fc.constantFrom<Unit>('mm', 'in/32', 'in');
    fc.assert(
      fc.property(hundredths, hundredths, hundredths, units, units, (a, b, bound, unit, limitUnit) => {
        const [less, more] = a < b ? [a, b] : [b, a];
        const limit: Limit = { comparator: 'min', value: text(bound), unit: limitUnit, source: 'test' };
        if (outcome(text(less), unit, limit) === 'within')
          expect(outcome(text(more), unit, limit)).toBe('within');
        const most: Limit = { ...limit, comparator: 'max' };
        if (outcome(text(more), unit, most) === 'within')
          expect(outcome(text(less), unit, most)).toBe('within');
      }),
      { numRuns: 3000 },
    );
  });

  it('takes the worst of several grooves', () => {
    // 6, 1 and 6 thirty-seconds: the lowest counts (49 CFR 570.9).
    const grooves = ['6', '1', '6'].map((value) => ({ value, unit: 'in/32' as const }));
    expect(worstAgainstLimit(grooves, US_TREAD)).toEqual({ ok: true, value: 'beyond' });
    expect(worstAgainstLimit(grooves.slice(2), US_TREAD)).toEqual({ ok: true, value: 'within' });
    expect(worstAgainstLimit([], US_TREAD)).toEqual({ ok: true, value: null });
    expect(worstAgainstLimit([{ value: 'x', unit: 'mm' }], US_TREAD)).toMatchObject({ ok: false });
  });
});
