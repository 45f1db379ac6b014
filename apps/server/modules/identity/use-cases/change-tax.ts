import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { TaxRow } from '../data/tax.entity.js';
import { taxResponse, type Taxable } from '../data/tax.mapping.js';
import type { TaxResponse } from '../dto/tax.response.js';

interface TaxChange {
  readonly name?: string;
  readonly ratePpm?: number;
  readonly appliesTo?: readonly Taxable[];
}

/** A tax that is no more falls on nothing. Revisions that were sent keep the taxes they were frozen with. */
export async function changeTax(
  tx: Tx,
  taxId: string,
  version: number | '*',
  change: TaxChange,
): Promise<Result<TaxResponse>> {
  const key = { shopId: tx.shopId, id: taxId };
  const row = await tx.em.findOne(TaxRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such tax in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const changed = {
    ...definedOnly({ ...change, appliesTo: change.appliesTo && [...new Set<string>(change.appliesTo)] }),
    version: row.version + 1,
  };
  await tx.em.update(TaxRow, key, changed);
  await tx.audit('tax.change', 'tax', taxId, definedOnly(change));
  return ok(taxResponse({ ...row, ...changed }));
}
