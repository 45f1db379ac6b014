import type { BookHundredths, Cents } from '#libs/kernel';
import { allocate } from '#libs/money';
import { labourCents } from './labour-cents.js';

export interface LabourOfClass {
  readonly totalCents: Cents;
  /** One part per weight, in their order; they add up to the total exactly. */
  readonly parts: readonly Cents[];
}

/**
 * The labour money of all lines of one rate class: the total hours are priced and rounded once, then the cents are placed
 * on the lines by largest remainder of their `weights` (each line's share of the hours). Pricing line by line instead
 * would let the lines and their total drift apart by a cent each.
 *
 * @throws RangeError when there are hours to charge but no line to carry them.
 */
export function labourOfClass(
  totalHundredths: BookHundredths,
  rateCentsPerHour: Cents,
  weights: readonly BookHundredths[],
): LabourOfClass {
  const totalCents = labourCents(totalHundredths, rateCentsPerHour);
  return { totalCents, parts: allocate(totalCents, weights) };
}
