import type { BookHundredths, Result } from '#libs/kernel';
import type { LabourFault, LabourOperation } from './labour-operation.js';
import { stepTable } from './step-table.js';
import { sumHours } from './sum-hours.js';

/**
 * What adding `operation` to those already `given` costs in book hours: its steps that none of them uses. Zero when it
 * is among them.
 */
export function marginal(
  operation: LabourOperation,
  given: readonly LabourOperation[],
): Result<BookHundredths, LabourFault> {
  const before = stepTable(given);
  if (!before.ok) return before;
  const isGiven = before.value.pairs.has(operation.id);
  // An id that was given already stands for the same operation, so it is read from the list and adds nothing twice.
  const after = stepTable(isGiven ? given : [...given, operation]);
  if (!after.ok) return after;
  const added = [...after.value.hours.keys()].filter((key) => !before.value.hours.has(key));
  return sumHours(after.value.hours, added);
}
