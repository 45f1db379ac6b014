import { cents } from '#libs/kernel';
import fc from 'fast-check';
import { allocate } from './allocate.js';

const total = fc.maxSafeInteger().map(cents);
const weights = fc.array(
  fc.oneof(fc.nat(1_000_000), fc.maxSafeNat(), fc.double({ min: 0, max: 1e6, noNaN: true })),
  {
    minLength: 1,
    maxLength: 15,
  },
);

describe('allocate', () => {
  // Worked with the largest-remainder (Hamilton/Hare) rule by two independent programs; ties to the earlier line.
  it.each([
    [10000, [1, 1, 1], [3334, 3333, 3333]],
    [1000, [12950, 6647, 1899], [603, 309, 88]],
    [1, [5, 5], [1, 0]],
    [0, [1, 2], [0, 0]],
    [-1000, [1, 1, 1], [-334, -333, -333]],
    [224, [1030, 1030, 1030], [75, 75, 74]],
  ])('splits %i cents over %j', (sum, over, parts) => {
    expect(allocate(cents(sum), over)).toEqual(parts);
  });

  it('a discount split over lines adds up to the discount', () => {
    fc.assert(
      fc.property(total, weights, (sum, over) => {
        const parts = allocate(sum, over);
        expect(parts).toHaveLength(over.length);
        expect(parts.reduce((added, part) => added + BigInt(part), 0n)).toBe(BigInt(sum));
      }),
      { numRuns: 2000 },
    );
  });

  it('no part has the sign opposite to the total, and a refund mirrors the charge', () => {
    fc.assert(
      fc.property(total, weights, (sum, over) => {
        const parts = allocate(sum, over);
        expect(parts.every((part) => part === 0 || Math.sign(part) === Math.sign(sum))).toBe(true);
        expect(allocate(cents(0 - sum), over)).toEqual(parts.map((part) => cents(0 - part)));
      }),
      { numRuns: 1000 },
    );
  });

  it('a heavier line never gets less, and equal lines differ by a cent at most', () => {
    fc.assert(
      fc.property(
        fc.nat(1_000_000).map(cents),
        fc.array(fc.nat(50), { minLength: 2, maxLength: 8 }),
        (sum, over) => {
          const parts = allocate(sum, over);
          over.forEach((a, i) => {
            over.forEach((b, j) => {
              if (a > b) expect(parts[i]).toBeGreaterThanOrEqual(parts[j] ?? 0);
              if (a === b) expect(Math.abs((parts[i] ?? 0) - (parts[j] ?? 0))).toBeLessThanOrEqual(1);
            });
          });
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('a line without weight gets nothing as long as another has some', () => {
    expect(allocate(cents(101), [0, 2, 0, 1])).toEqual([0, 67, 0, 34]);
  });

  it('all weights zero share alike, the earlier lines take the odd cents', () => {
    expect(allocate(cents(-5), [0, 0, 0])).toEqual([-2, -2, -1]);
  });

  it('stays exact up to the largest whole number that can be kept', () => {
    const most = Number.MAX_SAFE_INTEGER;
    expect(allocate(cents(most), [1, most])).toEqual([1, most - 1]);
  });
});
