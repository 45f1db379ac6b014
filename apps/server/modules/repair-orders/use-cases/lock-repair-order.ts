import type { Tx } from '../../../platform/database/tx.js';
import { RepairOrderRow } from '../data/repair-order.entity.js';

/** Takes the row FOR UPDATE: whatever is being added to the stay at this moment is finished first. */
export async function lockRepairOrder(tx: Tx, repairOrderId: string): Promise<RepairOrderRow | null> {
  return tx.em.findOne(RepairOrderRow, {
    where: { shopId: tx.shopId, id: repairOrderId },
    lock: { mode: 'pessimistic_write' },
  });
}
