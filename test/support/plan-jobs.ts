import type { ShopUnderTest } from './shop-under-test.js';
import { runJobsNow } from './jobs.js';

type Shop = Pick<ShopUnderTest, 'server' | 'sql'>;

const PENDING = `select count(*)::int as count from graphile_worker._private_jobs j
  join graphile_worker._private_tasks t on t.id = j.task_id where t.identifier = 'plan' and j.attempts < j.max_attempts`;

/** Waits until the plan has followed everything that happened. Longer looks and times that are still to come stay queued. */
export async function planSettles(shop: Shop): Promise<void> {
  for (let round = 0; round < 100; round += 1) {
    await runJobsNow(shop);
    const [row] = await shop.sql<{ count: number }>(PENDING);
    if (row?.count === 0) return;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error('the plan did not settle');
}

/** The clock has passed a time that the plan waits for, or the floor has come to rest: what was queued for then is due now. */
export async function planTimePasses(shop: Shop, task: 'plan-look' | 'plan-improve'): Promise<void> {
  await shop.sql(
    `update graphile_worker._private_jobs set run_at = now()
      where task_id = (select id from graphile_worker._private_tasks where identifier = $1)`,
    [task],
  );
  await planSettles(shop);
}
