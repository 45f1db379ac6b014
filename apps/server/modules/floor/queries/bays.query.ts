import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { BayRow } from '../data/bay.entity.js';
import { bayResponse } from '../data/bay.mapping.js';
import type { BayResponse } from '../dto/bay.response.js';

/** Few enough in any shop for one answer; in the order of their numbers. */
export async function allBays(tx: Tx): Promise<Result<{ items: BayResponse[] }>> {
  const rows = await tx.em.find(BayRow, { where: { shopId: tx.shopId }, order: { number: 'ASC' } });
  return ok({ items: rows.map(bayResponse) });
}
