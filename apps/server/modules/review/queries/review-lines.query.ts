import { ok, type Result } from '#libs/kernel';
import { compareRepairOrder } from '#libs/review';
import type { Tx } from '../../../platform/database/tx.js';
import { periodOf, type Period } from '../data/period.js';
import { reviewLine, soldAndClocked } from '../data/reviewed-line.mapping.js';
import type { ReviewQuery } from '../dto/review.request.js';
import type { ReviewLinesResponse } from '../dto/review.response.js';
import { reviewedLines, type ReviewedLineRow } from './reviewed-lines.query.js';

/** What was finished in a period counts in it whole, with all the time that was ever clocked on it. */
export const finishedIn = (tx: Tx, { start, end }: Period): Promise<ReviewedLineRow[]> =>
  reviewedLines(tx, 'w.finished_at >= $3 and w.finished_at < $4', [start, end]);

export async function reviewLines(tx: Tx, query: ReviewQuery): Promise<Result<ReviewLinesResponse>> {
  const period = await periodOf(tx, query);
  if (!period.ok) return period;
  const rows = await finishedIn(tx, period.value);
  return ok({
    from: query.from,
    to: query.to,
    lines: rows.map(reviewLine),
    total: compareRepairOrder(rows.map(soldAndClocked)),
  });
}
