import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { shares } from '#libs/labour';
import { allocate, extend, portionOf } from '#libs/money';
import { roundHalfUp } from './round-half-up.js';
import { splitCents } from './split-cents.js';
import { splitHours } from './split-hours.js';

/** The quick ways are held against the exact ones of libs/labour and libs/money, which go by large integers. */
describe('the quick ways of pricing', () => {
  it('split hours as the shares of libs/labour do, however many share a step', () => {
    const hours = fc.array(fc.oneof(fc.nat(400), fc.constant(0)), { minLength: 12, maxLength: 12 });
    const members = fc.array(fc.subarray([...Array.from({ length: 12 }).keys()]), {
      minLength: 1,
      maxLength: 24,
    });
    fc.assert(
      fc.property(hours, members, (perStep, used) => {
        const exact = shares(
          used.map((steps, at) => ({
            id: String(at).padStart(3, '0'),
            steps: steps.map((step) => ({
              step: String(step),
              position: '',
              hundredths: bookHundredths(perStep[step] ?? 0),
            })),
          })),
        );
        if (!exact.ok) throw new Error(exact.fault.detail);
        expect(splitHours(used, (step) => perStep[step] ?? 0)).toEqual([...exact.value.values()]);
      }),
      { numRuns: 2000 },
    );
  });

  it('split cents as allocate does, beyond safe products too', () => {
    const weights = fc.array(fc.oneof(fc.nat(9), fc.nat(100_000), fc.nat(10 ** 12)), {
      minLength: 1,
      maxLength: 9,
    });
    const total = fc.oneof(fc.nat(100), fc.nat(10_000_000), fc.integer({ min: -500, max: 10 ** 12 }));
    fc.assert(
      fc.property(total, weights, (amount, by) => {
        expect(splitCents(amount, by)).toEqual(allocate(cents(amount), by));
      }),
      { numRuns: 3000 },
    );
    expect(splitCents(0, [])).toEqual([]);
  });

  it('round products as extend and portionOf do, beyond safe products too', () => {
    const amount = fc.oneof(fc.nat(1000), fc.nat(10 ** 8), fc.nat(10 ** 12));
    fc.assert(
      fc.property(amount, fc.nat(1_000_000), (whole, rate) => {
        expect(roundHalfUp(whole, rate, 1_000_000)).toBe(portionOf(cents(whole), ppm(rate)));
        const price = Math.min(whole, 10 ** 11);
        expect(roundHalfUp(rate, price, 100)).toBe(extend(rate, cents(price)));
      }),
      { numRuns: 3000 },
    );
  });
});
