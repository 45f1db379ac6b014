import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { Page } from '../../../platform/http/answers.js';
import { decodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import { problem } from '../../../platform/http/problem-error.js';
import { runResponse, runSummary, type StoredRun, type SummaryOfRun } from '../data/plan-run.mapping.js';
import type { PlanRunsQuery } from '../dto/plan-run.request.js';
import type { PlanRunResponse, PlanRunSummaryResponse } from '../dto/plan-run.response.js';

const SUMMARY = `r.id, r.causes, r.improve, r.asked_at as "askedAt", r.ended_at as "endedAt", r.outcome, r.detail,
  jsonb_array_length(r.changes) as "changeCount", r.promises, r.decision, r.decided_at as "decidedAt",
  a.id as "askedById", a.display_name as "askedByName", d.id as "decidedById", d.display_name as "decidedByName"`;
const WHOLE = `${SUMMARY}, r.changes, r.cost_before as "costBefore", r.cost, r.lateness_bound as "latenessBound",
  r.solve_ms as "solveMs"`;
const FROM = `from plan_runs r left join staff a on a.shop_id = r.shop_id and a.id = r.asked_by
  left join staff d on d.shop_id = r.shop_id and d.id = r.decided_by`;

/** The newest first. */
export async function planRuns(tx: Tx, query: PlanRunsQuery): Promise<Result<Page<PlanRunSummaryResponse>>> {
  const limit = limitOf(query);
  const rows = await tx.rows<SummaryOfRun>(
    `select ${SUMMARY} ${FROM}
      where r.shop_id = $1 and ($2::text is null or r.outcome = $2) and ($3::uuid is null or r.id < $3)
      order by r.id desc limit $4`,
    [tx.shopId, query.outcome ?? null, idBelow(query.cursor), limit + 1],
  );
  return ok(pageOf(rows, limit, runSummary, ({ id }) => [id]));
}

export async function planRun(tx: Tx, id: string): Promise<Result<PlanRunResponse>> {
  const row = await tx.one<StoredRun>(`select ${WHOLE} ${FROM} where r.shop_id = $1 and r.id = $2`, [
    tx.shopId,
    id,
  ]);
  return row ? ok(runResponse(row)) : fail('not-found', 'There is no such run of the plan in this shop.');
}

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** The last run seen; ids begin with their time. Null on the first page. */
function idBelow(cursor: string | undefined): string | null {
  const below = decodeCursor(cursor, 1)?.[0];
  if (below === undefined) return null;
  if (typeof below === 'string' && UUID.test(below)) return below;
  throw problem('request-invalid', 'The cursor is not one of ours. Start again without it.', {
    fields: [{ pointer: '/cursor', detail: 'Use the nextCursor of the page before, unchanged.' }],
  });
}
