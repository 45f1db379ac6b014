import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { StepRow } from '../data/step.entity.js';
import { stepResponse } from '../data/step.mapping.js';
import type { AddStepRequest } from '../dto/step.request.js';
import type { StepResponse } from '../dto/step.response.js';
import { checkStepRate } from './check-step-rate.js';

/** A piece of dismantling or work with hours of its own. The shop enters the hours; none come with the program. */
export async function addStep(tx: Tx, request: AddStepRequest): Promise<Result<StepResponse>> {
  const rate = await checkStepRate(tx, request.rateId);
  if (!rate.ok) return rate;
  const row: StepRow = {
    shopId: tx.shopId,
    id: tx.newId(),
    code: request.code,
    name: request.name,
    hundredths: request.hundredths,
    rateId: request.rateId ?? null,
    version: 1,
  };
  await tx.em.insert(StepRow, row);
  await tx.audit('step.add', 'step', row.id, { code: row.code, hundredths: row.hundredths });
  return ok(stepResponse(row));
}
