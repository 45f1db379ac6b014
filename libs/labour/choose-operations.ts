import { fail, ok, type Result } from '#libs/kernel';
import type { LabourFault, LabourOperation } from './labour-operation.js';
import { stepTable } from './step-table.js';

/**
 * The chosen operations of a catalogue, once each and in its order. The whole catalogue is checked, chosen or not: a step
 * with two figures is wrong today even if only one of them is in use.
 */
export function chooseOperations(
  catalogue: readonly LabourOperation[],
  chosen: readonly string[],
): Result<LabourOperation[], LabourFault> {
  const table = stepTable(catalogue);
  if (!table.ok) return table;
  const unknown = chosen.find((id) => !table.value.pairs.has(id));
  if (unknown !== undefined) {
    return fail(
      'operation-unknown',
      `Operation "${unknown}" is chosen but not listed: add it or take it out.`,
    );
  }
  const wanted = new Set(chosen);
  return ok(catalogue.filter(({ id }) => wanted.has(id)));
}
