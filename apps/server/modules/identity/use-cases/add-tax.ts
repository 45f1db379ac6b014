import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { TaxRow } from '../data/tax.entity.js';
import { taxResponse, type Taxable } from '../data/tax.mapping.js';
import type { TaxResponse } from '../dto/tax.response.js';

interface NewTax {
  readonly name: string;
  readonly ratePpm: number;
  readonly appliesTo: readonly Taxable[];
}

/** A tax, its rate and what it falls on are the shop's data: local law decides, and this is not legal advice. */
export async function addTax(tx: Tx, tax: NewTax): Promise<Result<TaxResponse>> {
  const row = tx.em.create(TaxRow, {
    shopId: tx.shopId,
    id: tx.newId(),
    name: tax.name,
    ratePpm: tax.ratePpm,
    appliesTo: [...new Set(tax.appliesTo)],
    version: 1,
  });
  await tx.em.insert(TaxRow, row);
  await tx.audit('tax.add', 'tax', row.id, { ratePpm: row.ratePpm, appliesTo: row.appliesTo });
  return ok(taxResponse(row));
}
