import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { TaxRow } from '../data/tax.entity.js';
import { taxResponse } from '../data/tax.mapping.js';
import type { TaxesResponse } from '../dto/tax.response.js';

export async function allTaxes(tx: Tx): Promise<Result<TaxesResponse>> {
  const rows = await tx.em.find(TaxRow, { where: { shopId: tx.shopId }, order: { name: 'ASC' } });
  return ok({ items: rows.map(taxResponse) });
}
