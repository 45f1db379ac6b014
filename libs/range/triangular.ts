import type { Spread } from './spread.js';

const { sqrt } = Math;

/**
 * The triangular distribution (S. Kotz and J. R. van Dorp, "Beyond Beta", 2004, chapter 1; from memory): mean, variance
 * and quantiles in closed form.
 */
export function triangularMean({ low, likely, high }: Spread): number {
  return (low + likely + high) / 3;
}

export function triangularVariance({ low, likely, high }: Spread): number {
  // As squares of what lies between, so that far-out figures lose no digits.
  const [left, right] = [likely - low, high - likely];
  return (left * left + left * right + right * right) / 18;
}

/**
 * The point below which the distribution has probability `u`, for each u of a list, 0 < u < 1, in its place. It never falls
 * when u, low, likely or high rises: that is what makes a range drawn with the same seed monotone.
 */
export function triangularQuantiles(uniform: Float64Array, { low, likely, high }: Spread): Float64Array {
  const width = high - low;
  const peak = width === 0 ? 0 : (likely - low) / width;
  const rise = sqrt(width * (likely - low));
  const fall = sqrt(width * (high - likely));
  for (let at = 0; at < uniform.length; at++) {
    const u = uniform[at] ?? 0;
    uniform[at] = u < peak ? low + rise * sqrt(u) : high - fall * sqrt(1 - u);
  }
  return uniform;
}
