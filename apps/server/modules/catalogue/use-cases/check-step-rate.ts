import { ok, fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { labourRate } from '../../identity/index.js';

/** A rate that a step names is one of the shop's. */
export async function checkStepRate(tx: Tx, rateId: string | null | undefined): Promise<Result<void>> {
  if (rateId == null) return ok(undefined);
  const rate = await labourRate(tx, rateId);
  if (rate.ok) return ok(undefined);
  return fail('request-invalid', 'The labour rate is not there.', {
    fields: [{ pointer: '/rateId', detail: 'This shop has no such labour rate.' }],
  });
}
