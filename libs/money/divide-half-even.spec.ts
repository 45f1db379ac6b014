import fc from 'fast-check';
import { divideHalfEven } from './divide-half-even.js';
import { divideHalfUp } from './divide-half-up.js';

describe('divideHalfEven', () => {
  // Decimal arithmetic worked by hand (IEEE 754 roundTiesToEven on the exact decimal).
  it.each([
    ['1.005', 1005n, 100n],
    ['1.015', 1015n, 102n],
    ['0.125', 125n, 12n],
    ['0.375', 375n, 38n],
    ['-1.005', -1005n, -100n],
    ['-2.675', -2675n, -268n],
    ['66.465', 66465n, 6646n],
    ['0.285', 285n, 28n],
    ['0.286', 286n, 29n],
  ])('rounds %s to the cent, a half to the even one', (_, thousandths, cents) => {
    expect(divideHalfEven(thousandths, 10n)).toBe(cents);
  });

  it('differs from half up only at an exact half, and is even there', () => {
    fc.assert(
      fc.property(fc.bigInt(-(10n ** 6n), 10n ** 6n), fc.bigInt(1n, 50n), (num, den) => {
        const even = divideHalfEven(num, den);
        const isHalf = (2n * num) % den === 0n && num % den !== 0n;
        if (isHalf) expect(even % 2n).toBe(0n);
        else expect(even).toBe(divideHalfUp(num, den));
        expect(divideHalfEven(-num, den)).toBe(-even);
        expect(divideHalfEven(num, -den)).toBe(-even);
      }),
      { numRuns: 3000 },
    );
  });

  it('refuses to divide by zero', () => {
    expect(() => divideHalfEven(1n, 0n)).toThrow(RangeError);
  });
});
