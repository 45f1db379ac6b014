import type { BookHundredths, Result } from '#libs/kernel';
import type { LabourFault, LabourOperation } from './labour-operation.js';
import { stepTable } from './step-table.js';
import { sumHours } from './sum-hours.js';

/** Book hours of a set of operations done in one visit: every (step, position) is paid once, however many share it. */
export function together(operations: readonly LabourOperation[]): Result<BookHundredths, LabourFault> {
  const table = stepTable(operations);
  return table.ok ? sumHours(table.value.hours, table.value.hours.keys()) : table;
}
