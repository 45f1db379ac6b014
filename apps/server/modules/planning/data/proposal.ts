import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { PlanDecision } from '../dto/plan-run.response.js';
import type { FoundPlan } from './found-plan.js';

export interface Proposal {
  readonly id: string;
  readonly proposal: FoundPlan;
}

interface Row {
  readonly id: string;
  readonly outcome: string | null;
  readonly decision: PlanDecision | null;
  readonly proposal: FoundPlan | null;
}

const WORDS: Readonly<Record<PlanDecision, string>> = {
  accepted: 'This proposal was accepted already.',
  rejected: 'This proposal was rejected already.',
  superseded: 'A later run took the place of this proposal. Look at the newest one.',
};

/** A proposal that nobody has answered. The caller holds the plan. */
export async function openProposal(tx: Tx, id: string): Promise<Result<Proposal>> {
  const row = await tx.one<Row>(
    `select id, outcome, decision, proposal from plan_runs where shop_id = $1 and id = $2`,
    [tx.shopId, id],
  );
  if (!row) return fail('not-found', 'There is no such run of the plan in this shop.');
  if (row.proposal === null)
    return fail('plan-run-state', 'This run proposes nothing.', { facts: { outcome: row.outcome } });
  if (row.decision !== null)
    return fail('plan-run-state', WORDS[row.decision], { facts: { decision: row.decision } });
  return ok({ id, proposal: row.proposal });
}

/** The one that is open, if there is one. */
export async function standingProposal(tx: Tx): Promise<Proposal | undefined> {
  return tx.one<Proposal>(
    `select id, proposal from plan_runs where shop_id = $1 and outcome = 'proposed' and decision is null`,
    [tx.shopId],
  );
}

/** What a person rejected last, unless something was proposed or applied since. */
export async function lastRejected(tx: Tx): Promise<FoundPlan | undefined> {
  const row = await tx.one<{ decision: PlanDecision | null; proposal: FoundPlan | null }>(
    `select decision, proposal from plan_runs where shop_id = $1 and outcome in ('applied', 'proposed')
      order by id desc limit 1`,
    [tx.shopId],
  );
  return row?.decision === 'rejected' ? (row.proposal ?? undefined) : undefined;
}

export async function decideRun(tx: Tx, id: string, decision: PlanDecision): Promise<void> {
  await tx.em.query(
    `update plan_runs set decision = $3, decided_at = $4, decided_by = $5 where shop_id = $1 and id = $2`,
    [tx.shopId, id, decision, tx.now, decision === 'superseded' ? null : tx.staffId],
  );
}
