import type { Tx } from '../../../platform/database/tx.js';

/**
 * On which of these lines work has begun: somebody clocked on it (an entry that no correction took away), it is
 * finished, or a contingency has happened on it. The open work orders stay locked until the transaction ends, so that nobody can clock on meanwhile; in the
 * order of their ids, so that two who ask for the same lines wait for each other instead of blocking each other.
 */
export async function workBegunOnLines(tx: Tx, lineIds: readonly string[]): Promise<Set<string>> {
  if (lineIds.length === 0) return new Set();
  await tx.rows(
    `select id from work_orders where shop_id = $1 and line_id = any ($2) and withdrawn_at is null order by id for update`,
    [tx.shopId, lineIds],
  );
  // A statement of its own: what was committed while this one waited for the locks is seen only by the next.
  const begun = await tx.rows<{ lineId: string }>(
    `select w.line_id as "lineId" from work_orders w
      where w.shop_id = $1 and w.line_id = any ($2) and w.withdrawn_at is null
        and (w.finished_at is not null or exists (select 1 from clock_entries e
              where e.shop_id = w.shop_id and e.work_order_id = w.id and e.superseded_at is null)
          or exists (select 1 from contingency_triggers t where t.shop_id = w.shop_id and t.work_order_id = w.id))`,
    [tx.shopId, lineIds],
  );
  return new Set(begun.map(({ lineId }) => lineId));
}
