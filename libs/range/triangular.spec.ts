import fc from 'fast-check';
import { triangularMean, triangularQuantiles, triangularVariance } from './triangular.js';

describe('the triangular distribution', () => {
  it('has the mean and variance of a hand-worked case', () => {
    // 2, 3, 7: mean 12 / 3; variance (4 + 9 + 49 - 6 - 14 - 21) / 18 = 21 / 18.
    expect(triangularMean({ low: 2, likely: 3, high: 7 })).toBe(4);
    expect(triangularVariance({ low: 2, likely: 3, high: 7 })).toBeCloseTo(21 / 18, 12);
    // Symmetric on 0 to 1: the mean of two uniform numbers, of variance 1 / 24.
    expect(triangularVariance({ low: 0, likely: 0.5, high: 1 })).toBeCloseTo(1 / 24, 12);
  });

  it('has quantiles that its distribution function takes back', () => {
    const bounds = fc
      .tuple(fc.nat(100_000), fc.nat(100_000), fc.nat(100_000))
      .map((three) => three.sort((a, b) => a - b))
      .filter(([low, , high]) => low < high);
    fc.assert(
      fc.property(bounds, fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), ([a, c, b], u) => {
        const [x = NaN] = triangularQuantiles(Float64Array.of(u), { low: a, likely: c, high: b });
        expect(x).toBeGreaterThanOrEqual(a);
        expect(x).toBeLessThanOrEqual(b);
        // Straight from the density: the area of the triangle to the left.
        const below =
          x < c ? (x - a) ** 2 / ((b - a) * (c - a)) : 1 - (b - x) ** 2 / ((b - a) * (b - c || 1));
        expect(below).toBeCloseTo(u, 6);
      }),
      { numRuns: 2000 },
    );
  });
});
