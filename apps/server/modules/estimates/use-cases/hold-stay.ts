import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { openStay, type OpenStay } from '../../repair-orders/index.js';

/**
 * The stay for whatever changes what is offered or agreed to: one such act at a time on a repair order, because the price
 * of a choice depends on everything that was agreed to before. Not stronger than that: findings and clock entries go on.
 */
export async function holdStay(tx: Tx, repairOrderId: string): Promise<Result<OpenStay>> {
  await tx.rows('select 1 from repair_orders where shop_id = $1 and id = $2 for no key update', [
    tx.shopId,
    repairOrderId,
  ]);
  const stay = await openStay(tx, repairOrderId);
  return stay.ok ? ok(stay.value) : stay;
}
