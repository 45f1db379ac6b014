import type { PlanCost } from '#libs/plan';
import type { Tx } from '../../../platform/database/tx.js';
import type { PlanOutcome } from '../dto/plan-run.request.js';
import type {
  PlanCauseResponse,
  PlanChangeResponse,
  PlanCostResponse,
  PlanPromiseResponse,
  PlanPromisesResponse,
} from '../dto/plan-run.response.js';
import type { FoundPlan } from './found-plan.js';
import { PlanRunRow } from './plan-run.entity.js';

/** What is stored of a run, with what asked for it. */
export interface RunToStore {
  readonly id: string;
  /** It was asked for by a person, or has given places already. */
  readonly hasRow: boolean;
  readonly improve: boolean;
  readonly causes: readonly PlanCauseResponse[];
  readonly eventsUntil: string | null;
  readonly startedAt: Date;
  readonly outcome: PlanOutcome;
  readonly detail: string | null;
  readonly costBefore: PlanCost | null;
  readonly cost: PlanCost | null;
  readonly latenessBound: number | null;
  readonly solveMs: number | null;
  readonly changes: readonly PlanChangeResponse[];
  readonly promises: PlanPromisesResponse;
  readonly late: readonly PlanPromiseResponse[];
  readonly proposal: FoundPlan | null;
}

export async function storeRun(tx: Tx, run: RunToStore): Promise<void> {
  const { id, hasRow, costBefore, cost, ...rest } = run;
  const row = {
    ...{ ...rest, costBefore: costOf(costBefore), cost: costOf(cost), endedAt: tx.now },
    // The driver would take a list for an array of the database.
    ...{ causes: [...run.causes], changes: [...run.changes], late: [...run.late] },
  };
  const key = { shopId: tx.shopId, id };
  await (hasRow
    ? tx.em.update(PlanRunRow, key, row)
    : tx.em.insert(PlanRunRow, { ...key, ...row, askedAt: run.startedAt }));
  await forgetOld(tx);
}

function costOf(cost: PlanCost | null): PlanCostResponse | null {
  if (cost === null) return null;
  const { unplaced, frozenMoved, lateness, change, blocked } = cost;
  return { unplaced, frozenMoved, lateness, change, blocked };
}

const KEPT_DAYS = 14;

/** Runs that changed nothing tell nobody anything after a while; for each that comes, up to four go. */
async function forgetOld(tx: Tx): Promise<void> {
  await tx.em.query(
    `delete from plan_runs r using (
       select id from plan_runs where shop_id = $1 and outcome in ('unchanged', 'outdated', 'failed') and ended_at < $2
        order by ended_at limit 4) old
      where r.shop_id = $1 and r.id = old.id`,
    [tx.shopId, new Date(tx.now.getTime() - KEPT_DAYS * 86_400_000)],
  );
}

/** What the run before left: which promises did not hold, and how late the plan was that has been stored since. */
export interface RunBefore {
  readonly late: readonly PlanPromiseResponse[];
  readonly lateness: number | null;
}

export async function runBefore(tx: Tx): Promise<RunBefore> {
  const row = await tx.one<RunBefore>(
    `select late, (case when outcome = 'applied' or decision = 'accepted' then cost else cost_before end->>'lateness')::int as lateness
       from plan_runs where shop_id = $1 and outcome in ('unchanged', 'applied', 'proposed') and cost_before is not null
      order by id desc limit 1`,
    [tx.shopId],
  );
  return row ?? { late: [], lateness: null };
}

export interface AskedRun {
  readonly id: string;
  readonly improve: boolean;
  readonly askedAt: Date;
  readonly askedBy: string;
}

/** The first that somebody asked for and that is still to come. */
export async function askedRun(tx: Tx): Promise<AskedRun | null> {
  const row = await tx.one<AskedRun>(
    `select r.id, r.improve, r.asked_at as "askedAt", coalesce(s.display_name, 'Somebody') as "askedBy"
       from plan_runs r left join staff s on s.shop_id = r.shop_id and s.id = r.asked_by
      where r.shop_id = $1 and r.outcome is null order by r.asked_at, r.id limit 1`,
    [tx.shopId],
  );
  return row ?? null;
}
