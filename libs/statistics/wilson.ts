import { fail, ok, type Fault, type Result } from '#libs/kernel';
import { normalQuantile } from './normal-quantile.js';

export interface Bounds {
  readonly lo: number;
  readonly hi: number;
}

export type WilsonFault = Fault<'count-invalid' | 'no-trials' | 'confidence-invalid'>;

/**
 * Wilson's score interval for a rate of `x` out of `n` (comebacks of repair orders). Exactly 0 at the low end for none
 * and exactly 1 at the high end for all. Without trials there is nothing to say, which is a Fault and not 0 to 1.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 7.2.4.1 (E. B. Wilson, 1927).
 */
export function wilson(x: number, n: number, confidence = 0.95): Result<Bounds, WilsonFault> {
  if (n === 0) return fail('no-trials', 'There is no rate of nothing: n must be 1 or more.');
  if (!Number.isSafeInteger(n) || n < 0) return fail('count-invalid', 'n must be a whole number, 1 or more.');
  if (!Number.isSafeInteger(x) || x < 0 || x > n) {
    return fail('count-invalid', `x must be a whole number from 0 to n (${n}).`);
  }
  const tail = (1 - confidence) / 2;
  if (!(tail > 0 && tail < 0.5)) {
    return fail('confidence-invalid', 'The confidence lies between 0 and 1, such as 0.95.');
  }
  const z = -normalQuantile(tail);
  return ok({ lo: lowerBound(x, n, z), hi: 1 - lowerBound(n - x, n, z) });
}

/** The two bounds solve one quadratic; the product of its roots gives the smaller one without cancellation. */
function lowerBound(x: number, n: number, z: number): number {
  const rate = x / n;
  const spread = (z * z) / n;
  const scale = 1 + spread;
  const larger = (rate + spread / 2 + z * Math.sqrt((rate * (1 - rate)) / n + spread / (4 * n))) / scale;
  return (rate * rate) / (scale * larger);
}
