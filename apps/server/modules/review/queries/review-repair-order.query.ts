import { fail, ok, type Result } from '#libs/kernel';
import { compareRepairOrder } from '#libs/review';
import type { Tx } from '../../../platform/database/tx.js';
import { contingenciesOf, openCapsCents } from '../../estimates/index.js';
import { reviewLine, soldAndClocked } from '../data/reviewed-line.mapping.js';
import { isDone, scoreOrder, totalOf } from '../data/scored-order.js';
import type { RepairOrderReviewResponse } from '../dto/review.response.js';
import { agreedRevisions } from './agreed-revisions.query.js';
import { reviewedLines, type ReviewedLineRow } from './reviewed-lines.query.js';

interface Order {
  number: number;
  pickedUpAt: Date | null;
  undecidedLines: number;
}

/** One repair order after the fact: sold against clocked, line by line, and what of it may be invoiced. */
export async function reviewRepairOrder(
  tx: Tx,
  repairOrderId: string,
): Promise<Result<RepairOrderReviewResponse>> {
  const order = await tx.one<Order>(
    `select ro.number, ro.picked_up_at as "pickedUpAt",
            (select count(*)::int from lines l join revisions r on r.shop_id = l.shop_id and r.id = l.revision_id
              where l.shop_id = ro.shop_id and l.repair_order_id = ro.id and r.sent_at is not null
                and not exists (select 1 from decisions d where d.shop_id = l.shop_id and d.line_id = l.id)) as "undecidedLines"
       from repair_orders ro where ro.shop_id = $1 and ro.id = $2`,
    [tx.shopId, repairOrderId],
  );
  if (!order) return fail('not-found', 'There is no such repair order in this shop.');
  const rows = await reviewedLines(tx, 'l.repair_order_id = $3', [repairOrderId]);
  const done = rows.filter(isDone);
  return ok({
    repairOrderId,
    repairOrderNumber: order.number,
    lines: rows.map(reviewLine),
    total: compareRepairOrder(rows.map(soldAndClocked)),
    authorisedCents: totalOf(rows),
    contingentCents: openCapsCents(await contingenciesOf(tx, { repairOrderId })),
    invoiceableCents: totalOf(done),
    undecidedLines: order.undecidedLines,
    everythingDone: done.length === rows.length && order.undecidedLines === 0,
    ...(await scoreOf(tx, repairOrderId, order.pickedUpAt, rows)),
  });
}

type Score = Pick<
  RepairOrderReviewResponse,
  'pickedUpAt' | 'range' | 'totalCents' | 'isWithinP80' | 'band' | 'laterCents'
>;

async function scoreOf(
  tx: Tx,
  repairOrderId: string,
  pickedUpAt: Date | null,
  rows: readonly ReviewedLineRow[],
): Promise<Score> {
  const none = { range: null, isWithinP80: null, band: null, laterCents: null };
  if (pickedUpAt === null) return { ...none, pickedUpAt: null, totalCents: null };
  const gone = { pickedUpAt: pickedUpAt.toISOString(), totalCents: totalOf(rows.filter(isDone)) };
  const revisions = (await agreedRevisions(tx, [repairOrderId])).get(repairOrderId) ?? [];
  const scored = scoreOrder(revisions, rows);
  if (scored === null) return { ...none, ...gone };
  const { p10Cents, p50Cents, p80Cents, p95Cents } = scored.range;
  return {
    ...gone,
    range: { p10Cents, p50Cents, p80Cents, p95Cents },
    isWithinP80: scored.score.p80Held,
    band: scored.score.band,
    laterCents: scored.laterCents,
  };
}
