import type { Bounds } from './wilson.js';
import { studentQuantile } from './student-quantile.js';

export interface MeanInterval {
  readonly mean: number;
  /** Null for a single value, of which nobody can say how far others lie from it. */
  readonly bounds: Bounds | null;
}

/**
 * The mean of values and where the true mean lies with a confidence, by Student's t. For two ways to do the same thing
 * give it the differences, pair by pair.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.2 (confidence limits for the mean) and 7.3.1 (paired
 * observations).
 *
 * @throws RangeError without a value.
 */
export function meanInterval(values: readonly number[], confidence = 0.95): MeanInterval {
  const n = values.length;
  if (n === 0) throw new RangeError('there is no mean of nothing');
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  if (n === 1) return { mean, bounds: null };
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const reach = studentQuantile((1 + confidence) / 2, n - 1) * Math.sqrt(squares / (n - 1) / n);
  return { mean, bounds: { lo: mean - reach, hi: mean + reach } };
}
