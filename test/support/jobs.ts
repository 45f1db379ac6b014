import { QueueRunner, type DueRun } from '#server/platform/queue/index';
import type { ShopUnderTest } from './shop-under-test.js';

/** Runs every job that is due, and what those queue, until nothing is left. Fails with the first job that failed. */
export async function runJobsNow(shop: Pick<ShopUnderTest, 'server'>): Promise<DueRun['done']> {
  const { done, failed } = await shop.server.app.get(QueueRunner).runDue();
  if (failed[0]) throw failed[0].error;
  return done;
}
