import { fail, ok, type Result } from '#libs/kernel';
import { move, type WorkOrderEvent } from '#libs/workflow';
import type { Tx } from '../../../platform/database/tx.js';
import { floorNow, type FloorNow } from '../queries/floor-now.query.js';
import { workOrderFacts, type WorkOrderFactsRow } from '../queries/work-order-facts.query.js';
import { BLOCKING, lackOf, standingOf, type Standing } from './standing.mapping.js';

/** A work order with everything that decides what may be done with it. */
export interface WorkOrderInHand {
  readonly row: WorkOrderFactsRow;
  readonly floor: FloorNow;
  readonly standing: Standing;
}

const UNKNOWN = 'There is no such work order in this shop.';

/** As it is now; good for reading. */
export async function lookAtWorkOrder(tx: Tx, workOrderId: string): Promise<Result<WorkOrderInHand>> {
  const [row] = await workOrderFacts(tx, 'w.id = $3', [workOrderId]);
  if (!row) return fail('not-found', UNKNOWN);
  const floor = await floorNow(tx);
  return ok({ row, floor, standing: standingOf(row, floor) });
}

/**
 * Locks it first and reads it in the next statement: a row that was waited for comes back new, but what hangs on it
 * (claim, clock entries) would still be seen as it was before the wait.
 */
export async function takeWorkOrderInHand(tx: Tx, workOrderId: string): Promise<Result<WorkOrderInHand>> {
  const locked = await tx.one('select id from work_orders where shop_id = $1 and id = $2 for update', [
    tx.shopId,
    workOrderId,
  ]);
  return locked ? lookAtWorkOrder(tx, workOrderId) : fail('not-found', UNKNOWN);
}

/** Whether this may happen to it where it stands. */
export function allow({ row, standing }: WorkOrderInHand, event: WorkOrderEvent): Result<void> {
  const next = move(standing.state, event);
  if (next.ok) return ok(undefined);
  const { detail, facts } = next.fault;
  return fail('work-order-state', `Work order ${row.number}: ${detail}`, facts ? { facts } : {});
}

/** Whether this person may begin it now: nothing holds it that they cannot get round, and they may do such work. */
export function mayBegin(inHand: WorkOrderInHand, staffId: string): Result<void> {
  const { row, floor, standing } = inHand;
  const blocking = standing.holds.filter(({ kind }) => BLOCKING.includes(kind));
  if (blocking.length > 0)
    return fail('work-order-on-hold', blocking.map(({ detail }) => detail).join(' '), {
      facts: { holds: blocking },
    });
  const lacks = lackOf(row, floor, staffId);
  if (lacks.length > 0)
    return fail('technician-not-qualified', lacks.map(({ detail }) => detail).join(' '), {
      facts: { lacks: lacks.map(({ facts }) => facts ?? {}) },
    });
  return ok(undefined);
}
