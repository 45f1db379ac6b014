import { fail, ok, type Result } from '#libs/kernel';
import { findCircle } from '#libs/workflow';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { lookAtWorkOrder, takeWorkOrderInHand } from '../data/in-hand.js';
import { WorkOrderPrecedenceRow } from '../data/work-order-precedence.entity.js';
import { workOrderResponse } from '../data/work-order.mapping.js';
import type { WorkOrderResponse } from '../dto/work-order.response.js';

interface Sibling {
  id: string;
  number: number;
}

/** Says which work orders of the same repair order must be finished before this one begins. */
export async function setEarlierWorkOrders(
  tx: Tx,
  workOrderId: string,
  version: number | '*',
  earlierIds: readonly string[],
): Promise<Result<WorkOrderResponse>> {
  // All of the repair order, in one order: two changes that are harmless alone could close a circle together.
  const siblings = await tx.rows<Sibling>(
    `select id, number from work_orders where shop_id = $1 and withdrawn_at is null and repair_order_id =
       (select repair_order_id from work_orders where shop_id = $1 and id = $2) order by id for update`,
    [tx.shopId, workOrderId],
  );
  const inHand = await takeWorkOrderInHand(tx, workOrderId);
  if (!inHand.ok) return inHand;
  const { row, standing } = inHand.value;
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  if (row.withdrawnAt ?? row.checkedAt)
    return fail('work-order-state', `Work order ${row.number} is ${standing.state}; its order is settled.`);
  const wanted = [...new Set(earlierIds.map((id) => id.toLowerCase()))];
  const strange = wanted.findIndex((id) => !siblings.some((sibling) => sibling.id === id));
  if (strange >= 0)
    return fail('not-found', 'An earlier work order belongs to the same repair order and is not withdrawn.', {
      fields: [
        { pointer: `/earlierIds/${strange}`, detail: 'There is no such work order on this repair order.' },
      ],
    });
  const circle = await circleWith(tx, row.repairOrderId, workOrderId, wanted);
  if (circle) return waitsInCircle(circle, siblings);
  await replace(tx, workOrderId, wanted);
  await tx.audit('work-order.earlier', 'work-order', workOrderId, { earlierIds: wanted });
  tx.announce('work-order', { workOrderId, repairOrderId: row.repairOrderId });
  const after = await lookAtWorkOrder(tx, workOrderId);
  return after.ok ? ok(workOrderResponse(after.value)) : after;
}

async function circleWith(
  tx: Tx,
  repairOrderId: string,
  workOrderId: string,
  wanted: readonly string[],
): Promise<string[] | null> {
  const edges = await tx.rows<{ later: string; earlier: string[] }>(
    `select p.work_order_id as later, array_agg(p.earlier_id::text) as earlier
       from work_order_precedences p join work_orders w on w.shop_id = p.shop_id and w.id = p.work_order_id
      where p.shop_id = $1 and w.repair_order_id = $2 group by p.work_order_id`,
    [tx.shopId, repairOrderId],
  );
  // The changed one first, so that the circle is told beginning with it.
  const others = edges.filter(({ later }) => later !== workOrderId);
  return findCircle(
    new Map([[workOrderId, wanted], ...others.map(({ later, earlier }) => [later, earlier] as const)]),
  );
}

function waitsInCircle(circle: readonly string[], siblings: readonly Sibling[]) {
  const numbers = circle.map((id) => siblings.find((sibling) => sibling.id === id)?.number ?? 0);
  return fail(
    'earlier-work-order-cycle',
    `Work order ${numbers.join(' would wait for ')}: none of them could begin. Leave one of them out.`,
    {
      fields: [{ pointer: '/earlierIds', detail: 'Leave out the one that closes the circle.' }],
      facts: { numbers },
    },
  );
}

async function replace(tx: Tx, workOrderId: string, wanted: readonly string[]): Promise<void> {
  await tx.em.delete(WorkOrderPrecedenceRow, { shopId: tx.shopId, workOrderId });
  await tx.em.insert(
    WorkOrderPrecedenceRow,
    wanted.map((earlierId) => ({ shopId: tx.shopId, workOrderId, earlierId })),
  );
  await tx.em.query(`update work_orders set version = version + 1 where shop_id = $1 and id = $2`, [
    tx.shopId,
    workOrderId,
  ]);
}
