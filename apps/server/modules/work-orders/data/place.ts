import type { Tx } from '../../../platform/database/tx.js';

interface Freed {
  id: string;
}

/** Shorter than this, a place cannot be seen or hit on the board. */
const SHORTEST = '15 minutes';

/**
 * The place of a work order in the plan belongs to scheduling, which comes after this module. But a place must not
 * outlive the work: the exclusion constraints would keep the bay, the technician and the tools from everybody else.
 */
export async function cancelPlace(tx: Tx, workOrderId: string): Promise<void> {
  const cancelled = await tx.rows<Freed>(
    `update assignments set cancelled_at = $3, version = version + 1
      where shop_id = $1 and work_order_id = $2 and cancelled_at is null returning id`,
    [tx.shopId, workOrderId, tx.now],
  );
  for (const { id } of cancelled) {
    await tx.em.query(
      `update assignment_tools set cancelled_at = $3
        where shop_id = $1 and assignment_id = $2 and cancelled_at is null`,
      [tx.shopId, id, tx.now],
    );
    tx.announce('assignment', { assignmentId: id, workOrderId });
  }
}

/** Finished before its place ran out: what is left of it is free again; a place still to come is given up. */
export async function freeRestOfPlace(tx: Tx, workOrderId: string): Promise<void> {
  const [place] = await tx.rows<{ id: string; startsAt: Date }>(
    `select id, starts_at as "startsAt" from assignments
      where shop_id = $1 and work_order_id = $2 and cancelled_at is null and ends_at > $3 for update`,
    [tx.shopId, workOrderId, tx.now],
  );
  if (!place) return;
  if (place.startsAt >= tx.now) return cancelPlace(tx, workOrderId);
  const end = `least(ends_at, greatest($3::timestamptz, starts_at + interval '${SHORTEST}'))`;
  await tx.em.query(
    `update assignments set ends_at = ${end}, version = version + 1 where shop_id = $1 and id = $2`,
    [tx.shopId, place.id, tx.now],
  );
  await tx.em.query(
    `update assignment_tools set ends_at = ${end} where shop_id = $1 and assignment_id = $2 and cancelled_at is null`,
    [tx.shopId, place.id, tx.now],
  );
  tx.announce('assignment', { assignmentId: place.id, workOrderId });
}
