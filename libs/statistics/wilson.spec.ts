import fc from 'fast-check';
import { wilson, type Bounds } from './wilson.js';

const bounds = (x: number, n: number, confidence?: number): Bounds => {
  const result = wilson(x, n, confidence);
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const faultCode = (x: number, n: number, confidence?: number) => {
  const result = wilson(x, n, confidence);
  return result.ok ? undefined : result.fault.code;
};

describe('wilson', () => {
  // Formula: NIST/SEMATECH e-Handbook 7.2.4.1. The first four: R. G. Newcombe, Statistics in Medicine 17 (1998) 857-872, table I
  // (0.2553-0.3662, 0.0624-0.1605, 0-0.1611, 0.0061-0.1718; from memory, recomputed). All digits: a separate program (SciPy).
  it.each([
    [81, 263, 0.95, 0.2552885198782742, 0.36620957698280004],
    [15, 148, 0.95, 0.06238639953073629, 0.16048724172330803],
    [0, 20, 0.95, 0, 0.16112515805281935],
    [1, 29, 0.95, 0.006113214292762667, 0.17175521879320282],
    [3, 120, 0.95, 0.008538174769902224, 0.07093003332786608],
    [5, 5, 0.95, 0.5655175352168251, 1],
    [7, 50, 0.99, 0.05614371860633749, 0.3082057874303547],
    [7, 50, 0.8, 0.08851935972566853, 0.2143786884818315],
    [1, 1_000_000, 0.95, 1.765245767453709e-7, 5.664911804311442e-6],
  ])('%i of %i at %d', (x, n, confidence, lo, hi) => {
    const found = bounds(x, n, confidence);
    expect(found.lo).toBeCloseTo(lo, 12);
    expect(found.hi).toBeCloseTo(hi, 12);
  });

  it('holds the rate, mirrors its complement, is exact at the ends and wider with more confidence', () => {
    const counts = fc.integer({ min: 1, max: 1_000_000 }).chain((n) => fc.tuple(fc.nat(n), fc.constant(n)));
    fc.assert(
      fc.property(counts, ([x, n]) => {
        const { lo, hi } = bounds(x, n);
        expect(lo).toBeGreaterThanOrEqual(0);
        expect(lo).toBeLessThanOrEqual(x / n);
        expect(hi).toBeGreaterThanOrEqual(x / n);
        expect(hi).toBeLessThanOrEqual(1);
        expect(lo === 0).toBe(x === 0);
        expect(hi === 1).toBe(x === n);
        expect(bounds(n - x, n).hi).toBeCloseTo(1 - lo, 12);
        expect(bounds(x, n, 0.99).hi).toBeGreaterThanOrEqual(hi);
      }),
      { numRuns: 1000 },
    );
  });

  it('refuses counts and confidences that mean nothing', () => {
    expect(faultCode(0, 0)).toBe('no-trials');
    expect(faultCode(1, -5)).toBe('count-invalid');
    expect(faultCode(6, 5)).toBe('count-invalid');
    expect(faultCode(-1, 5)).toBe('count-invalid');
    expect(faultCode(0.5, 5)).toBe('count-invalid');
    expect(faultCode(1, Number.NaN)).toBe('count-invalid');
    expect([0, 1, -0.5, 95, Number.NaN].map((confidence) => faultCode(1, 5, confidence))).toEqual(
      Array<string>(5).fill('confidence-invalid'),
    );
  });
});
