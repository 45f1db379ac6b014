import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { LabourRateRow } from '../data/labour-rate.entity.js';
import { labourRateResponse } from '../data/labour-rate.mapping.js';
import type { LabourRateResponse } from '../dto/labour-rate.response.js';
import { takeDefaultAway } from './add-labour-rate.js';

interface LabourRateChange {
  readonly name?: string;
  readonly centsPerHour?: number;
  readonly isDefault?: boolean;
}

/** A new price of an hour counts for lines that are priced from now on. */
export async function changeLabourRate(
  tx: Tx,
  rateId: string,
  version: number | '*',
  change: LabourRateChange,
): Promise<Result<LabourRateResponse>> {
  const key = { shopId: tx.shopId, id: rateId };
  const row = await tx.em.findOne(LabourRateRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such labour rate in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  if (row.isDefault && change.isDefault === false)
    return fail('request-invalid', 'Make another rate the default instead.', {
      fields: [
        { pointer: '/isDefault', detail: 'One rate is always the default: choose another one there.' },
      ],
    });
  if (!row.isDefault && change.isDefault === true) await takeDefaultAway(tx);
  const changed = { ...definedOnly(change), version: row.version + 1 };
  await tx.em.update(LabourRateRow, key, changed);
  await tx.audit('labour-rate.change', 'labour-rate', rateId, definedOnly(change));
  return ok(labourRateResponse({ ...row, ...changed }));
}
