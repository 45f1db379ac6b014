import fc from 'fast-check';
import { largestRemainder } from './largest-remainder.js';

describe('largestRemainder', () => {
  it('reproduces the seats of the 1790 United States House with 60 seats', () => {
    // Source: electowiki.org, "Hamilton method", example on the 1790 census. State, population, seats.
    const published: [string, bigint, bigint][] = [
      ['Virginia', 630560n, 11n],
      ['Massachusetts', 475327n, 8n],
      ['Pennsylvania', 432879n, 7n],
      ['North Carolina', 353523n, 6n],
      ['New York', 331589n, 6n],
      ['Maryland', 278514n, 5n],
      ['Connecticut', 236841n, 4n],
      ['South Carolina', 206236n, 3n],
      ['New Jersey', 179570n, 3n],
      ['New Hampshire', 141822n, 2n],
      ['Vermont', 85533n, 1n],
      ['Georgia', 70835n, 1n],
      ['Kentucky', 68705n, 1n],
      ['Rhode Island', 68446n, 1n],
      ['Delaware', 55540n, 1n],
    ];
    const seats = largestRemainder(
      60n,
      published.map(([, population]) => population),
    );
    expect(seats).toEqual(published.map(([, , seat]) => seat));
  });

  it('keeps the sum, and keeps every part within one unit of its exact share', () => {
    const weights = fc.array(fc.bigInt(0n, 10n ** 18n), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(fc.bigInt(0n, 10n ** 20n), weights, (total, given) => {
        const whole = given.reduce((sum, weight) => sum + weight, 0n);
        const parts = largestRemainder(total, given);
        expect(parts.reduce((sum, part) => sum + part, 0n)).toBe(total);
        if (whole === 0n) return;
        parts.forEach((part, index) => {
          const error = part * whole - total * (given[index] ?? 0n);
          expect(error < whole && error > -whole).toBe(true);
        });
      }),
      { numRuns: 2000 },
    );
  });

  it('shares alike when every weight is zero', () => {
    expect(largestRemainder(5n, [0n, 0n, 0n])).toEqual([2n, 2n, 1n]);
  });

  it('refuses what cannot be shared out', () => {
    expect(largestRemainder(0n, [])).toEqual([]);
    expect(() => largestRemainder(1n, [])).toThrow(RangeError);
    expect(() => largestRemainder(-1n, [1n])).toThrow(RangeError);
    expect(() => largestRemainder(1n, [2n, -1n])).toThrow(RangeError);
  });
});
