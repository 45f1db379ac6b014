import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { StepRow } from '../data/step.entity.js';
import { stepResponse } from '../data/step.mapping.js';
import type { ChangeStepRequest } from '../dto/step.request.js';
import type { StepResponse } from '../dto/step.response.js';
import { checkStepRate } from './check-step-rate.js';

/** Holds for lines written from now on: every line keeps a copy of the hours that it was written with. */
export async function changeStep(
  tx: Tx,
  stepId: string,
  version: number | '*',
  request: ChangeStepRequest,
): Promise<Result<StepResponse>> {
  const row = await tx.em.findOne(StepRow, {
    where: { shopId: tx.shopId, id: stepId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!row) return fail('not-found', 'There is no such step in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const rate = await checkStepRate(tx, request.rateId);
  if (!rate.ok) return rate;
  const changed = { ...definedOnly(request), version: row.version + 1 };
  await tx.em.update(StepRow, { shopId: tx.shopId, id: stepId }, changed);
  await tx.audit('step.change', 'step', stepId, { from: row.hundredths, ...definedOnly(request) });
  return ok(stepResponse({ ...row, ...changed }));
}
