import { fail, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { RepairOrderRow } from '../data/repair-order.entity.js';
import type { ChangeRepairOrderRequest } from '../dto/repair-order.request.js';
import type { RepairOrderResponse } from '../dto/repair-order.response.js';
import { repairOrderById } from '../queries/repair-order.query.js';
import { customerExists } from '../queries/stay.query.js';
import { closedFault } from '../queries/closed-fault.js';
import { lockRepairOrder } from './lock-repair-order.js';
import { promiseFault } from './promise-fault.js';

/** What was said at the desk may be said better while the car is here. The audit keeps what stood before. */
export async function changeRepairOrder(
  tx: Tx,
  repairOrderId: string,
  version: number | '*',
  request: ChangeRepairOrderRequest,
): Promise<Result<RepairOrderResponse>> {
  const row = await lockRepairOrder(tx, repairOrderId);
  if (!row) return fail('not-found', 'There is no such repair order in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  if (row.pickedUpAt) return closedFault(row.pickedUpAt);
  const promised = promiseFault(request.promisedAt, tx.now);
  if (promised) return promised;
  if (request.customerId !== undefined && !(await customerExists(tx, request.customerId)))
    return fail('not-found', 'There is no such customer in this shop.');
  const given = definedOnly(request);
  const { promisedAt, ...rest } = given;
  await tx.em.update(
    RepairOrderRow,
    { shopId: tx.shopId, id: repairOrderId },
    {
      ...rest,
      ...(promisedAt === undefined ? {} : { promisedAt: promisedAt === null ? null : new Date(promisedAt) }),
      version: row.version + 1,
    },
  );
  await tx.audit('repair-order.change', 'repair-order', repairOrderId, {
    ...given,
    before: { concern: row.concern, promisedAt: row.promisedAt, customerId: row.customerId },
  });
  tx.announce('repair-order', { repairOrderId });
  return repairOrderById(tx, repairOrderId);
}
