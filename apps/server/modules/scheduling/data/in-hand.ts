import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { takeWorkOrderInHand, type WorkOrderInHand } from '../../work-orders/index.js';
import type { Place } from '../queries/conflicts.query.js';

export interface AssignmentInHand {
  readonly inHand: WorkOrderInHand;
  readonly place: Place;
  /** Until when the vehicle, being apart, keeps the bay after it. */
  readonly bayUntil: Date | null;
  /** The version as stored. */
  readonly stored: number;
}

/** The work order is locked first, as everywhere; its place is then read as it stands. */
export async function takeAssignmentInHand(tx: Tx, assignmentId: string): Promise<Result<AssignmentInHand>> {
  const missing = fail('not-found', 'There is no such assignment in this shop.');
  const found = await tx.one<{ workOrderId: string }>(
    `select work_order_id as "workOrderId" from assignments where shop_id = $1 and id = $2 and cancelled_at is null`,
    [tx.shopId, assignmentId],
  );
  if (!found) return missing;
  const inHand = await takeWorkOrderInHand(tx, found.workOrderId);
  if (!inHand.ok) return inHand;
  const now = await tx.one<Place & { version: number; bayUntil: Date | null }>(
    `select bay_id as "bayId", technician_id as "technicianId", starts_at as "startsAt", ends_at as "endsAt",
            bay_until as "bayUntil", version
       from assignments where shop_id = $1 and id = $2 and cancelled_at is null for update`,
    [tx.shopId, assignmentId],
  );
  if (!now) return missing;
  const { version, bayUntil, ...place } = now;
  return ok({ inHand: inHand.value, place, bayUntil, stored: version });
}
