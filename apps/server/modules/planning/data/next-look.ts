import type { PlanAssignment } from '#libs/plan';
import type { Tx } from '../../../platform/database/tx.js';
import { OVERDUE_MS } from '../loading/overdue.js';
import type { ShopPlan } from '../loading/shop-plan.js';
import { lookPayload, type Look } from './look.js';
import { PLAN_LOOK_TASK, PLAN_QUEUE } from './enqueue-plan.js';
import { GRACE_MINUTES } from './found-plan.js';

/** A look that is due sooner than this after the one before waits so long: times that pass one after the other come together. */
const LEAST_MINUTES = 1;

/**
 * The next time at which the plan may no longer hold although nothing happens: work on the clock passes its expected end, a
 * planned start passes, an open proposal begins, a part is overdue for so long that its work is not planned any more, a
 * reservation is over. What has passed already was seen by this run.
 */
export async function nextLook(
  tx: Tx,
  { horizon, problem, workOrders, assignmentOf }: ShopPlan,
  stored: readonly PlanAssignment[],
  proposed: readonly PlanAssignment[],
): Promise<Look | null> {
  const started = new Set(
    problem.repairOrders.flatMap(({ operations }) =>
      operations.flatMap(({ id, started: place }) => (place == null ? [] : [id])),
    ),
  );
  const looks = [
    ...stored.map(({ operation, start, end }): Look => {
      const isUnderWay = started.has(operation);
      return {
        kind: isUnderWay ? 'overrun' : 'late-start',
        at: horizon.instantOf(isUnderWay ? end + LEAST_MINUTES : start + GRACE_MINUTES),
        workOrderId: operation,
      };
    }),
    ...proposed
      .filter(({ operation }) => !started.has(operation))
      .map(({ start }): Look => ({
        ...{ kind: 'proposal-old', at: horizon.instantOf(start + GRACE_MINUTES), workOrderId: null },
      })),
    ...[...workOrders.values()]
      .filter(({ id }) => assignmentOf.has(id))
      .flatMap(({ id, partsExpected }) =>
        partsExpected.map(({ at }): Look => ({
          ...{ kind: 'part-overdue', at: new Date(at.getTime() + OVERDUE_MS), workOrderId: id },
        })),
      ),
    ...(await reservationsOver(tx)),
  ];
  const soonest = new Date(tx.now.getTime() + LEAST_MINUTES * 60_000);
  return looks
    .filter(({ at }) => at >= soonest)
    .reduce<Look | null>((first, look) => (first === null || look.at < first.at ? look : first), null);
}

async function reservationsOver(tx: Tx): Promise<Look[]> {
  const row = await tx.one<{ at: Date | null }>(
    `select min(coalesce(expires_at, lapses_at)) as at from reservations
      where shop_id = $1 and released_at is null and coalesce(expires_at, lapses_at) > $2`,
    [tx.shopId, tx.now],
  );
  return row?.at == null ? [] : [{ kind: 'reservation-over', at: row.at, workOrderId: null }];
}

/** @param rate how much faster than the wall's the shop's clock runs. */
export function enqueueLook(tx: Tx, look: Look, rate: number): void {
  const wait = Math.max(0, look.at.getTime() - tx.now.getTime()) / rate;
  tx.enqueue(PLAN_LOOK_TASK, lookPayload(look), {
    ...{ key: PLAN_LOOK_TASK, queue: PLAN_QUEUE, mode: 'replace' },
    runAt: new Date(tx.wall.getTime() + wait),
  });
}
