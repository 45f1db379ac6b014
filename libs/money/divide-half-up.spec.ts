import fc from 'fast-check';
import { divideHalfUp } from './divide-half-up.js';

describe('divideHalfUp', () => {
  // Decimal arithmetic worked by hand; binary floating point prints several of these a cent lower (1.005 as 1.00).
  it.each([
    ['1.005', 1005n, 101n],
    ['1.015', 1015n, 102n],
    ['0.125', 125n, 13n],
    ['0.375', 375n, 38n],
    ['-1.005', -1005n, -101n],
    ['-2.675', -2675n, -268n],
    ['66.465', 66465n, 6647n],
    ['0.285', 285n, 29n],
    ['0.284', 284n, 28n],
  ])('rounds %s to the cent, a half away from zero', (_, thousandths, cents) => {
    expect(divideHalfUp(thousandths, 10n)).toBe(cents);
  });

  it('is never further than a half from the exact quotient, and a negated input gives the negated answer', () => {
    const nonZero = fc.bigInt(-(10n ** 20n), 10n ** 20n).filter((den) => den !== 0n);
    fc.assert(
      fc.property(fc.bigInt(-(10n ** 30n), 10n ** 30n), nonZero, (num, den) => {
        const twiceError = 2n * (num - divideHalfUp(num, den) * den);
        const size = den < 0n ? -den : den;
        expect(twiceError <= size && twiceError >= -size).toBe(true);
        expect(divideHalfUp(-num, den)).toBe(-divideHalfUp(num, den));
        expect(divideHalfUp(num, -den)).toBe(-divideHalfUp(num, den));
      }),
      { numRuns: 2000 },
    );
  });

  it('refuses to divide by zero', () => {
    expect(() => divideHalfUp(1n, 0n)).toThrow(RangeError);
  });
});
