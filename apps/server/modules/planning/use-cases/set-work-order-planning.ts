import { fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { cancelPlace, leaveOutOfPlan, letIntoPlan, takeWorkOrderInHand } from '../../work-orders/index.js';
import type { WorkOrderPlanningRequest } from '../dto/plan-run.request.js';
import type { WorkOrderPlanningResponse } from '../dto/plan-run.response.js';
import { workOrderPlanning } from '../queries/work-order-planning.query.js';

/** A person takes the work order out of the plan, with the place that it has, or lets it in again. */
export async function setWorkOrderPlanning(
  tx: Tx,
  workOrderId: string,
  { leftOut }: WorkOrderPlanningRequest,
): Promise<Result<WorkOrderPlanningResponse>> {
  const inHand = await takeWorkOrderInHand(tx, workOrderId);
  if (!inHand.ok) return inHand;
  const { row, standing } = inHand.value;
  if (leftOut && standing.state === 'on-the-clock')
    return fail('work-order-state', `Work order ${row.number} is on the clock: the vehicle stands there.`, {
      facts: { state: standing.state },
    });
  const before = await workOrderPlanning(tx, workOrderId);
  if (!before.ok || before.value.leftOut === leftOut) return before;
  if (leftOut) await cancelPlace(tx, workOrderId);
  await (leftOut ? leaveOutOfPlan(tx, workOrderId) : letIntoPlan(tx, workOrderId));
  await tx.audit(leftOut ? 'plan.leave-out' : 'plan.let-in', 'work-order', workOrderId);
  tx.announce('work-order', { workOrderId, repairOrderId: row.repairOrderId });
  return workOrderPlanning(tx, workOrderId);
}
