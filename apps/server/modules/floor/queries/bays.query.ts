import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { BayRow } from '../data/bay.entity.js';
import { bayResponse } from '../data/bay.mapping.js';
import type { BayResponse } from '../dto/bay.response.js';

/** Few enough in any shop for one answer; in the order of their numbers. */
export async function allBays(tx: Tx): Promise<Result<{ items: BayResponse[] }>> {
  const rows = await tx.em.find(BayRow, { where: { shopId: tx.shopId }, order: { number: 'ASC' } });
  return ok({ items: rows.map(bayResponse) });
}

export async function bayById(tx: Tx, bayId: string): Promise<Result<BayResponse>> {
  const row = await tx.em.findOneBy(BayRow, { shopId: tx.shopId, id: bayId });
  return row ? ok(bayResponse(row)) : fail('not-found', 'There is no such bay in this shop.');
}
