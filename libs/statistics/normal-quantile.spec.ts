import { normalQuantile } from './normal-quantile.js';

describe('normalQuantile', () => {
  // Computed apart from this code by root finding on the distribution function at 40 digits (mpmath).
  it.each([
    [1e-300, -37.0470962993611992],
    [1e-20, -9.26234008979840757],
    [1e-10, -6.3613409024040562],
    [0.0005, -3.29052673149189479],
    [0.005, -2.57582930354890076],
    [0.025, -1.95996398454005424],
    [0.05, -1.64485362695147271],
    [0.07, -1.47579102817917074],
    [0.075, -1.43953147093845592],
    [0.1, -1.28155156554460047],
    [0.25, -0.674489750196081743],
    [0.4, -0.253347103135799799],
    [0.5, 0],
    [0.8, 0.841621233572914205],
    [0.93, 1.47579102817917074],
    [0.975, 1.95996398454005424],
    [0.999, 3.09023230616781354],
  ])('has probability %d below %d', (p, z) => {
    expect(Math.abs(normalQuantile(p) - z)).toBeLessThan(1e-13);
  });

  it.each([0, 1, -0.1, 1.1, Number.NaN])('refuses %d', (p) => {
    expect(() => normalQuantile(p)).toThrow(RangeError);
  });
});
