import { ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { together } from '#libs/labour';
import type { LabourFault, LabourStep } from '#libs/labour';
import { expandPositions } from './expand-positions.js';
import type { CatalogueOperation, PositionFault } from './expand-positions.js';
import type { Position } from './position.js';

export interface OrderedOperation {
  readonly operation: CatalogueOperation;
  readonly positions: readonly Position[];
}

/**
 * The distinct steps of a line: the union of its operations at their positions. Refuses two operations that put
 * different hours on the same step at the same place (`step-hours-differ`), because the union would be arbitrary.
 */
export function expandLine(
  operations: readonly OrderedOperation[],
): Result<LabourStep[], PositionFault | LabourFault> {
  const steps = new Map<string, LabourStep>();
  const listed: { id: string; steps: LabourStep[] }[] = [];
  for (const [at, { operation, positions }] of operations.entries()) {
    const expanded = expandPositions(operation, positions);
    if (!expanded.ok) return expanded;
    // The index keeps one operation that is ordered twice at different positions apart.
    listed.push({ id: `${operation.id} #${at}`, steps: expanded.value });
    for (const step of expanded.value) steps.set(JSON.stringify([step.step, step.position]), step);
  }
  const consistent = together(listed);
  if (!consistent.ok) return consistent;
  return ok([...steps.values()]);
}
