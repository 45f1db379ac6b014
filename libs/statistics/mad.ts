import { median } from './median.js';

/** Median absolute deviation from the median; null of nothing. Times 1.4826 it estimates a normal standard deviation. */
export function mad(values: readonly number[]): number | null {
  const middle = median(values);
  return middle === null ? null : median(values.map((value) => Math.abs(value - middle)));
}
