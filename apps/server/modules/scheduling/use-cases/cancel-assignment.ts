import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { cancelPlace, leaveOutOfPlan } from '../../work-orders/index.js';
import { takeAssignmentInHand } from '../data/in-hand.js';

/**
 * Takes the work order out of the plan; bay, technician and tools are free again. Not while somebody is on the clock. It
 * stays out until a person gives it a place, takes it or lets it in: the plan would only put it back where it was.
 */
export async function cancelAssignment(
  tx: Tx,
  assignmentId: string,
  version: number | '*',
): Promise<Result<void>> {
  const taken = await takeAssignmentInHand(tx, assignmentId);
  if (!taken.ok) return taken;
  const { row, standing } = taken.value.inHand;
  const current = checkVersion(version, taken.value.stored);
  if (!current.ok) return current;
  if (standing.state === 'on-the-clock')
    return fail('work-order-state', `Work order ${row.number} is on the clock: the vehicle stands there.`, {
      facts: { state: standing.state },
    });
  await cancelPlace(tx, row.id);
  await leaveOutOfPlan(tx, row.id);
  await tx.audit('assignment.cancel', 'assignment', assignmentId, { workOrderId: row.id });
  return ok(undefined);
}
