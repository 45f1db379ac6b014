import { bookHundredths, ok, type BookHundredths, type Result } from '#libs/kernel';
import { largestRemainder } from '#libs/money';
import { compareCodePoints } from './compare-code-points.js';
import { sharesOf } from './exact-shares.js';
import type { LabourFault, LabourOperation } from './labour-operation.js';
import { sharingGroups } from './sharing-groups.js';
import { stepTable } from './step-table.js';
import { sumHours } from './sum-hours.js';

/**
 * What each of the chosen operations carries of their common book hours: its `exactShares`, rounded to whole hundredths
 * by largest remainder within each group that shares steps, ties by id in code-point order. The shares add up to
 * `together`, none is above `alone`, the order of the operations does not matter, and lines that share nothing keep
 * exactly their own hours. The law that no group pays more than it would by itself holds for the exact shares; rounding
 * can bend it by less than a hundredth per line.
 */
export function shares(
  operations: readonly LabourOperation[],
): Result<Map<string, BookHundredths>, LabourFault> {
  const table = stepTable(operations);
  if (!table.ok) return table;
  const total = sumHours(table.value.hours, table.value.hours.keys());
  if (!total.ok) return total;
  const { numerators, denominator } = sharesOf(table.value);

  const rounded: [string, BookHundredths][] = [];
  for (const group of sharingGroups(table.value)) {
    const ids = group.sort(compareCodePoints);
    const weights = ids.map((id) => numerators.get(id) ?? 0n);
    const groupHours = weights.reduce((sum, weight) => sum + weight, 0n) / denominator;
    const parts = largestRemainder(groupHours, weights);
    ids.forEach((id, index) => rounded.push([id, bookHundredths(Number(parts[index] ?? 0n))]));
  }
  return ok(new Map(rounded.sort(([a], [b]) => compareCodePoints(a, b))));
}
