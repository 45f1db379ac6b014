import { divideHalfEven } from './divide-half-even.js';
import { divideHalfUp } from './divide-half-up.js';

/** How a fraction of a cent is settled. Half up is what the tax statutes ask for; half even is for those who must. */
export type Rounding = 'half-up' | 'half-even';

export const ROUNDINGS: readonly Rounding[] = ['half-up', 'half-even'];

/** `num / den` to a whole number under the named policy. */
export function divideRounded(num: bigint, den: bigint, rounding: Rounding): bigint {
  return rounding === 'half-up' ? divideHalfUp(num, den) : divideHalfEven(num, den);
}
