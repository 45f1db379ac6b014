import type { Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { lockPlan } from '../data/lock-plan.js';
import { decideRun, openProposal } from '../data/proposal.js';
import type { PlanRunResponse } from '../dto/plan-run.response.js';
import { planRun } from '../queries/plan-runs.query.js';

/** The plan stays as it is; the same is not proposed again until something else would be found. */
export async function rejectProposal(tx: Tx, id: string): Promise<Result<PlanRunResponse>> {
  await lockPlan(tx);
  const open = await openProposal(tx, id);
  if (!open.ok) return open;
  await decideRun(tx, id, 'rejected');
  await tx.audit('plan.reject', 'plan-run', id);
  tx.announce('plan', { planRunId: id });
  return planRun(tx, id);
}
