import type { Tx } from '../../../platform/database/tx.js';
import type { LockedInspection } from '../queries/lock-inspection.query.js';

/** Something on the walk changed: its version grows, and the screens that show it hear of it. */
export async function touchInspection(
  tx: Tx,
  inspection: Pick<LockedInspection, 'id' | 'repairOrderId'>,
): Promise<void> {
  await tx.rows(
    'update inspections set version = version + 1 where shop_id = $1 and id = $2 returning version',
    [tx.shopId, inspection.id],
  );
  tx.announce('inspection', { inspectionId: inspection.id, repairOrderId: inspection.repairOrderId });
}
