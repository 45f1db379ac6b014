import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { LabourRateRow } from '../data/labour-rate.entity.js';
import { labourRateResponse } from '../data/labour-rate.mapping.js';
import type { LabourRateResponse, LabourRatesResponse } from '../dto/labour-rate.response.js';

/** The default first, then by name. */
export async function allLabourRates(tx: Tx): Promise<Result<LabourRatesResponse>> {
  const rows = await tx.em.find(LabourRateRow, {
    where: { shopId: tx.shopId },
    order: { isDefault: 'DESC', name: 'ASC' },
  });
  return ok({ items: rows.map(labourRateResponse) });
}

/** The rate with this id, or without one the rate that lines take unless told otherwise. */
export async function labourRate(tx: Tx, rateId?: string): Promise<Result<LabourRateResponse>> {
  const row = await tx.em.findOneBy(
    LabourRateRow,
    rateId === undefined ? { shopId: tx.shopId, isDefault: true } : { shopId: tx.shopId, id: rateId },
  );
  if (row) return ok(labourRateResponse(row));
  return fail(
    'not-found',
    rateId === undefined
      ? 'The shop has no default labour rate. An administrator adds one in the shop settings.'
      : 'There is no such labour rate in this shop.',
  );
}

export const defaultRate = (tx: Tx): Promise<Result<LabourRateResponse>> => labourRate(tx);
