import type { Tx } from '../../../platform/database/tx.js';

interface Freed {
  id: string;
  bayId: string;
  startsAt: Date;
  bayUntil: Date | null;
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
      where shop_id = $1 and work_order_id = $2 and cancelled_at is null
      returning id, bay_id as "bayId", starts_at as "startsAt", bay_until as "bayUntil"`,
    [tx.shopId, workOrderId, tx.now],
  );
  for (const freed of cancelled) {
    await tx.em.query(
      `update assignment_tools set cancelled_at = $3
        where shop_id = $1 and assignment_id = $2 and cancelled_at is null`,
      [tx.shopId, freed.id, tx.now],
    );
    await handOnHold(tx, workOrderId, freed);
    tx.announce('assignment', { assignmentId: freed.id, workOrderId });
  }
}

/**
 * A vehicle that is apart waited in the bay for this work. It waits on for what comes after it, or for nothing: then the
 * bay is free.
 */
async function handOnHold(tx: Tx, workOrderId: string, { bayId, startsAt, bayUntil }: Freed): Promise<void> {
  await tx.em.query(
    `update assignments a set bay_until = $5
      where a.shop_id = $1 and a.bay_id = $3 and a.bay_until = $4 and a.cancelled_at is null
        and exists (select 1 from work_orders w join work_orders mine
                        on mine.shop_id = w.shop_id and mine.repair_order_id = w.repair_order_id
                     where w.shop_id = $1 and w.id = a.work_order_id and mine.id = $2)`,
    [tx.shopId, workOrderId, bayId, startsAt, bayUntil],
  );
}

/**
 * Finished before its place ran out: what is left of it is free again; a place still to come is given up. The bay is kept
 * only where further work on the same vehicle comes in it.
 */
export async function freeRestOfPlace(tx: Tx, workOrderId: string): Promise<void> {
  const [place] = await tx.rows<{ id: string; startsAt: Date }>(
    `select id, starts_at as "startsAt" from assignments
      where shop_id = $1 and work_order_id = $2 and cancelled_at is null and coalesce(bay_until, ends_at) > $3 for update`,
    [tx.shopId, workOrderId, tx.now],
  );
  if (!place) return;
  if (place.startsAt >= tx.now) return cancelPlace(tx, workOrderId);
  const end = `least(a.ends_at, greatest($3::timestamptz, a.starts_at + interval '${SHORTEST}'))`;
  await tx.em.query(
    `update assignments a set ends_at = ${end}, version = a.version + 1, bay_until = case when exists (
            select 1 from assignments o join work_orders w on w.shop_id = $1 and w.id = o.work_order_id and w.finished_at is null
              join work_orders mine on mine.shop_id = $1 and mine.id = a.work_order_id
               and mine.repair_order_id = w.repair_order_id and mine.id <> w.id
             where o.shop_id = $1 and o.bay_id = a.bay_id and o.cancelled_at is null and o.starts_at >= a.ends_at)
            then a.bay_until end
      where a.shop_id = $1 and a.id = $2`,
    [tx.shopId, place.id, tx.now],
  );
  await tx.em.query(
    `update assignment_tools a set ends_at = ${end} where a.shop_id = $1 and a.assignment_id = $2 and a.cancelled_at is null`,
    [tx.shopId, place.id, tx.now],
  );
  tx.announce('assignment', { assignmentId: place.id, workOrderId });
}

/** A person takes it out of the plan: no run gives it a place again until somebody lets it in. */
export async function leaveOutOfPlan(tx: Tx, workOrderId: string): Promise<void> {
  await tx.em.query(
    `insert into plan_left_out (shop_id, id, work_order_id, left_out_by, left_out_at) values ($1, $2, $3, $4, $5)
     on conflict (shop_id, work_order_id) where (lifted_at is null) do nothing`,
    [tx.shopId, tx.newId(), workOrderId, tx.staffId, tx.now],
  );
}

/** Whoever gives it a place, takes it or says so lets it into the plan again. */
export async function letIntoPlan(tx: Tx, workOrderId: string): Promise<void> {
  await tx.em.query(
    `update plan_left_out set lifted_at = $3, lifted_by = $4
      where shop_id = $1 and work_order_id = $2 and lifted_at is null`,
    [tx.shopId, workOrderId, tx.now, tx.staffId],
  );
}
