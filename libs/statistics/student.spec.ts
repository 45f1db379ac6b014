import fc from 'fast-check';
import { meanInterval, studentBelow, studentQuantile } from './index.js';

describe("Student's distribution", () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods 1.3.6.7.2, critical values of Student's t (three decimals).
  it.each([
    [1, 12.706, 63.657],
    [2, 4.303, 9.925],
    [3, 3.182, 5.841],
    [4, 2.776, 4.604],
    [5, 2.571, 4.032],
    [9, 2.262, 3.25],
    [10, 2.228, 3.169],
    [19, 2.093, 2.861],
    [30, 2.042, 2.75],
    [100, 1.984, 2.626],
  ])('has the published points for %i degrees of freedom', (degrees, at975, at995) => {
    expect(studentQuantile(0.975, degrees)).toBeCloseTo(at975, 3);
    expect(studentQuantile(0.995, degrees)).toBeCloseTo(at995, 3);
  });

  it('has a quantile that is the inverse and mirrors about zero', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.integer({ min: 1, max: 60 }),
        (p, n) => {
          expect(studentBelow(studentQuantile(p, n), n)).toBeCloseTo(p, 9);
          expect(studentQuantile(1 - p, n)).toBeCloseTo(-studentQuantile(p, n), 6);
        },
      ),
    );
  });

  it('refuses what is no probability and no number of degrees', () => {
    expect(() => studentQuantile(1, 3)).toThrow(RangeError);
    expect(() => studentBelow(1, 0)).toThrow(RangeError);
  });
});

describe('the interval of a mean', () => {
  it('is the one worked out by hand', () => {
    // 1, 2, 3: mean 2, standard error 1/√3, t(0.975; 2) = 4.30265.
    const { mean, bounds } = meanInterval([1, 2, 3]);
    expect(mean).toBe(2);
    expect(bounds?.lo).toBeCloseTo(2 - 4.30265 / Math.sqrt(3), 4);
    expect(bounds?.hi).toBeCloseTo(2 + 4.30265 / Math.sqrt(3), 4);
  });

  it('cannot say how sure a single value is', () => {
    expect(meanInterval([7])).toEqual({ mean: 7, bounds: null });
    expect(() => meanInterval([])).toThrow(RangeError);
  });
});
