import type { Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { enqueuePlan } from '../data/enqueue-plan.js';
import { PlanRunRow } from '../data/plan-run.entity.js';
import type { AskForPlanRequest } from '../dto/plan-run.request.js';
import type { PlanRunResponse } from '../dto/plan-run.response.js';
import { planRun } from '../queries/plan-runs.query.js';

/** Answers with the run as it stands: asked for. The job that follows finds it by having no outcome. */
export async function askForPlan(
  tx: Tx,
  { improve = false }: AskForPlanRequest,
): Promise<Result<PlanRunResponse>> {
  const id = tx.newId();
  await tx.em.insert(PlanRunRow, {
    ...{ shopId: tx.shopId, id, improve, askedAt: tx.now, askedBy: tx.staffId },
    ...{ causes: [], changes: [], promises: { broken: [], kept: [] }, late: [] },
  });
  enqueuePlan(tx);
  return planRun(tx, id);
}
