import type { Tx } from '../../../platform/database/tx.js';

/**
 * One at a time of what changes the shop's plan as a whole: a run that stores what it found, an answer to a proposal, new
 * settings. Taken first; the rows follow in the order of the whole server: work orders, bays, technicians, tools.
 */
export async function lockPlan(tx: Tx): Promise<void> {
  await tx.em.query(`select pg_advisory_xact_lock(hashtextextended('plan:' || $1, 0))`, [tx.shopId]);
}
