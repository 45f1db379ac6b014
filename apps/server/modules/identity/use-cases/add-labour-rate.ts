import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { LabourRateRow } from '../data/labour-rate.entity.js';
import { labourRateResponse } from '../data/labour-rate.mapping.js';
import type { LabourRateResponse } from '../dto/labour-rate.response.js';

interface NewLabourRate {
  readonly name: string;
  readonly centsPerHour: number;
  readonly isDefault?: boolean;
}

/** What an hour of labour costs. The first rate of a shop is the one that lines take unless told otherwise. */
export async function addLabourRate(tx: Tx, rate: NewLabourRate): Promise<Result<LabourRateResponse>> {
  const isFirst = !(await tx.em.existsBy(LabourRateRow, { shopId: tx.shopId, isDefault: true }));
  const row = tx.em.create(LabourRateRow, {
    shopId: tx.shopId,
    id: tx.newId(),
    name: rate.name,
    centsPerHour: rate.centsPerHour,
    isDefault: isFirst || rate.isDefault === true,
    version: 1,
  });
  if (row.isDefault) await takeDefaultAway(tx);
  await tx.em.insert(LabourRateRow, row);
  await tx.audit('labour-rate.add', 'labour-rate', row.id, {
    name: row.name,
    centsPerHour: row.centsPerHour,
  });
  return ok(labourRateResponse(row));
}

export async function takeDefaultAway(tx: Tx): Promise<void> {
  await tx.rows(
    'update labour_rates set is_default = false, version = version + 1 where shop_id = $1 and is_default',
    [tx.shopId],
  );
}
