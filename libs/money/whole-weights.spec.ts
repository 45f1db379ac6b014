import { wholeWeights } from './whole-weights.js';

describe('wholeWeights', () => {
  it('reads fractions as the decimals that they print as', () => {
    expect(wholeWeights([0.1, 0.2, 3])).toEqual([1n, 2n, 30n]);
    expect(wholeWeights([1.5e-7, 1])).toEqual([15n, 100_000_000n]);
    expect(wholeWeights([1e21, 2])).toEqual([10n ** 21n, 2n]);
    expect(wholeWeights([1.25e22])).toEqual([125n * 10n ** 20n]);
  });

  it('refuses negative and endless weights', () => {
    for (const weight of [-1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => wholeWeights([weight])).toThrow(RangeError);
    }
  });
});
