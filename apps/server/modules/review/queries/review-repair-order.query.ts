import { fail, ok, type Result } from '#libs/kernel';
import { compareRepairOrder } from '#libs/review';
import type { Tx } from '../../../platform/database/tx.js';
import { reviewLine, soldAndClocked } from '../data/reviewed-line.mapping.js';
import type { RepairOrderReviewResponse } from '../dto/review.response.js';
import { reviewedLines } from './reviewed-lines.query.js';

interface Order {
  number: number;
  undecidedLines: number;
}

/** One repair order after the fact: sold against clocked, line by line, and what of it may be invoiced. */
export async function reviewRepairOrder(
  tx: Tx,
  repairOrderId: string,
): Promise<Result<RepairOrderReviewResponse>> {
  const order = await tx.one<Order>(
    `select ro.number,
            (select count(*)::int from lines l join revisions r on r.shop_id = l.shop_id and r.id = l.revision_id
              where l.shop_id = ro.shop_id and l.repair_order_id = ro.id and r.sent_at is not null
                and not exists (select 1 from decisions d where d.shop_id = l.shop_id and d.line_id = l.id)) as "undecidedLines"
       from repair_orders ro where ro.shop_id = $1 and ro.id = $2`,
    [tx.shopId, repairOrderId],
  );
  if (!order) return fail('not-found', 'There is no such repair order in this shop.');
  const rows = await reviewedLines(tx, 'l.repair_order_id = $3', [repairOrderId]);
  const done = rows.filter(({ checkedAt }) => checkedAt !== null);
  const sum = (of: readonly { totalCents: number }[]): number =>
    of.reduce((all, one) => all + one.totalCents, 0);
  return ok({
    repairOrderId,
    repairOrderNumber: order.number,
    lines: rows.map(reviewLine),
    total: compareRepairOrder(rows.map(soldAndClocked)),
    authorisedCents: sum(rows),
    invoiceableCents: sum(done),
    undecidedLines: order.undecidedLines,
    everythingDone: done.length === rows.length && order.undecidedLines === 0,
  });
}
