import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { Page } from '../../../platform/http/answers.js';
import { decodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import { problem } from '../../../platform/http/problem-error.js';
import {
  whatIfResponse,
  whatIfSummary,
  type StoredWhatIf,
  type WholeWhatIf,
} from '../data/what-if.mapping.js';
import type { WhatIfsQuery } from '../dto/what-if.request.js';
import type { WhatIfResponse, WhatIfSummaryResponse } from '../dto/what-if.response.js';

const SUMMARY = `w.id, w.asked_at as "askedAt", w.started_at as "startedAt", w.ended_at as "endedAt",
  w.failed_reason as "failedReason", w.answer is not null as "isAnswered",
  s.id as "askedById", s.display_name as "askedByName",
  (select coalesce(jsonb_agg(a->'name' order by n), '[]')
     from jsonb_array_elements(w.question->'alternatives') with ordinality as each(a, n)) as asked`;
const WHOLE = `${SUMMARY}, w.answer,
  jsonb_build_object('basis', w.question->'basis', 'seeds', w.question->'seeds', 'weeks', w.question->'year'->'weeks') as question`;
const FROM = 'from what_ifs w join staff s on s.shop_id = w.shop_id and s.id = w.asked_by';
const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** The newest first. */
export async function whatIfs(tx: Tx, query: WhatIfsQuery): Promise<Result<Page<WhatIfSummaryResponse>>> {
  const limit = limitOf(query);
  const rows = await tx.rows<StoredWhatIf>(
    `select ${SUMMARY} ${FROM} where w.shop_id = $1 and ($2::uuid is null or w.id < $2) order by w.id desc limit $3`,
    [tx.shopId, idBelow(query.cursor), limit + 1],
  );
  return ok(pageOf(rows, limit, whatIfSummary, ({ id }) => [id]));
}

export async function whatIf(tx: Tx, id: string): Promise<Result<WhatIfResponse>> {
  const row = await tx.one<WholeWhatIf>(`select ${WHOLE} ${FROM} where w.shop_id = $1 and w.id = $2`, [
    tx.shopId,
    id,
  ]);
  return row ? ok(whatIfResponse(row)) : fail('not-found', 'There is no such question in this shop.');
}

/** The last one seen; ids begin with their time. Null on the first page. */
function idBelow(cursor: string | undefined): string | null {
  const below = decodeCursor(cursor, 1)?.[0];
  if (below === undefined) return null;
  if (typeof below === 'string' && UUID.test(below)) return below;
  throw problem('request-invalid', 'The cursor is not one of ours. Start again without it.', {
    fields: [{ pointer: '/cursor', detail: 'Use the nextCursor of the page before, unchanged.' }],
  });
}
