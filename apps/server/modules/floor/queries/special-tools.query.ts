import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { SpecialToolRow } from '../data/special-tool.entity.js';
import { specialToolResponse } from '../data/special-tool.mapping.js';
import type { SpecialToolResponse } from '../dto/special-tool.response.js';

/** Few enough in any shop for one answer; by name. */
export async function allSpecialTools(tx: Tx): Promise<Result<{ items: SpecialToolResponse[] }>> {
  const rows = await tx.em.find(SpecialToolRow, { where: { shopId: tx.shopId }, order: { name: 'ASC' } });
  return ok({ items: rows.map(specialToolResponse) });
}
