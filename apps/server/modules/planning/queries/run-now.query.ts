import type { Tx } from '../../../platform/database/tx.js';
import type { PlanOutcome } from '../dto/plan-run.request.js';

/** How the looking at the plan stands. */
export interface RunNow {
  readonly lastRun: { readonly id: string; readonly at: string; readonly outcome: PlanOutcome } | null;
  readonly openProposalId: string | null;
}

export async function runNow(tx: Tx): Promise<RunNow> {
  const row = await tx.one<RunNow>(
    `select (select jsonb_build_object('id', r.id, 'at', r.ended_at, 'outcome', r.outcome) from plan_runs r
              where r.shop_id = $1 and r.outcome is not null order by r.id desc limit 1) as "lastRun",
            (select r.id from plan_runs r where r.shop_id = $1 and r.outcome = 'proposed' and r.decision is null)
              as "openProposalId"`,
    [tx.shopId],
  );
  const lastRun = row?.lastRun ?? null;
  return {
    lastRun: lastRun && { ...lastRun, at: new Date(lastRun.at).toISOString() },
    openProposalId: row?.openProposalId ?? null,
  };
}
