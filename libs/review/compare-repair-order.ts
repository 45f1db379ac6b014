import { compareLine } from './compare-line.js';
import type { Comparison, SoldAndClocked } from './compare-line.js';
import { sumCompared } from './sum-compared.js';

/** A repair order, or any number of them: the totals of its lines compared, never the mean of the lines' ratios. */
export function compareRepairOrder(lines: readonly SoldAndClocked[]): Comparison {
  return compareLine(sumCompared(lines));
}
