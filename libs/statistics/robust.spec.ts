import fc from 'fast-check';
import { mad } from './mad.js';
import { median } from './median.js';
import { MODIFIED_Z_LIMIT, modifiedZ } from './modified-z.js';
import { ratioOfTotals } from './ratio-of-totals.js';

describe('median and median absolute deviation', () => {
  it('match the common textbook example and a forgotten clock-off', () => {
    expect(median([1, 1, 2, 2, 4, 6, 9])).toBe(2);
    expect(mad([1, 1, 2, 2, 4, 6, 9])).toBe(1);
    const ratios = [1.02, 1.1, 0.98, 1.05, 3.4];
    expect(median(ratios)).toBe(1.05);
    expect(mad(ratios)).toBeCloseTo(0.05, 12);
    // Rule: Iglewicz and Hoaglin (1993), NIST/SEMATECH e-Handbook 1.3.5.17: 0.6745 x (3.40 - 1.05) / 0.05.
    expect(modifiedZ(3.4, ratios)).toBeCloseTo(31.7015, 4);
    expect(ratios.filter((ratio) => Math.abs(modifiedZ(ratio, ratios) ?? 0) > MODIFIED_Z_LIMIT)).toEqual([
      3.4,
    ]);
  });

  it('of an even number take the mean of the middle two, of nothing say nothing', () => {
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(median([])).toBeNull();
    expect(mad([])).toBeNull();
    expect(modifiedZ(1, [])).toBeNull();
    expect(modifiedZ(9, [1, 1, 1, 9])).toBeNull();
  });

  it('half the values lie on either side, and the input is left in its order', () => {
    fc.assert(
      fc.property(fc.array(fc.integer(), { minLength: 1 }), (values) => {
        const before = [...values];
        const middle = median(values) ?? Number.NaN;
        expect(values).toEqual(before);
        expect(values.filter((each) => each < middle).length).toBeLessThanOrEqual(values.length / 2);
        expect(values.filter((each) => each > middle).length).toBeLessThanOrEqual(values.length / 2);
      }),
    );
  });
});

describe('ratioOfTotals', () => {
  // Arithmetic on the ratio estimator of W. G. Cochran, "Sampling Techniques": clocked over book hours of five jobs.
  it('is what the jobs cost together, not the mean of their ratios (1.262667)', () => {
    const jobs = [
      [1, 1.3],
      [2.5, 2.2],
      [0.8, 1.6],
      [3, 3.9],
      [1.2, 1],
    ];
    const parts = jobs.map(([book = 0, clocked = 0]) => ({ above: clocked, below: book }));
    expect(ratioOfTotals(parts)).toBeCloseTo(1.176471, 6);
  });

  it('one short quick job does not hide a long slow one: 5.0 book hours in 6.5, not 133 percent', () => {
    const parts = [
      { above: 1, below: 0.5 },
      { above: 4, below: 6 },
    ];
    expect(ratioOfTotals(parts)).toBeCloseTo(0.769231, 6);
  });

  it('of nothing is null, not zero', () => {
    expect(ratioOfTotals([])).toBeNull();
    expect(ratioOfTotals([{ above: 1, below: 0 }])).toBeNull();
  });
});
