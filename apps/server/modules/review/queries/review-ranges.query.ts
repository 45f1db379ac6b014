import { setImmediate as othersTurn } from 'node:timers/promises';
import { ok, type Result } from '#libs/kernel';
import { heldShare, ratio, SCORED_LEVELS, type ScoredTotal } from '#libs/review';
import type { Tx } from '../../../platform/database/tx.js';
import { periodOf, type Period } from '../data/period.js';
import { scoreOrder, type ScoredOrder } from '../data/scored-order.js';
import type { OverP80Response, RangesReviewResponse } from '../dto/range-review.response.js';
import type { ReviewQuery } from '../dto/review.request.js';
import { agreedRevisions } from './agreed-revisions.query.js';
import { reviewedLines, type ReviewedLineRow } from './reviewed-lines.query.js';

/** Every range is drawn again for an answer; beyond this many the newest are scored and the answer says how many are not. */
const MOST_SCORED = 200;
/** Others are served after so many. */
const AT_A_TIME = 4;

interface PickedUp {
  readonly id: string;
  readonly number: number;
  readonly pickedUpAt: Date;
  /** In the whole period. */
  readonly all: number;
}

interface Scored extends ScoredOrder {
  readonly order: PickedUp;
}

/** How often the total stayed within what was said before the job, for what was picked up in a period. */
export async function reviewRanges(tx: Tx, query: ReviewQuery): Promise<Result<RangesReviewResponse>> {
  const period = await periodOf(tx, query);
  if (!period.ok) return period;
  const orders = await pickedUpIn(tx, period.value);
  const scored = await scoreAll(tx, orders);
  const pickedUp = orders[0]?.all ?? 0;
  const uncertain = scored.filter(({ isUncertain }) => isUncertain).map(scoredTotal);
  const single = scored.filter(({ isUncertain }) => !isUncertain);
  const singles = 'repair orders picked up whose range was a single amount';
  return ok({
    from: query.from,
    to: query.to,
    pickedUp,
    unscored: orders.length - scored.length,
    leftOut: pickedUp - orders.length,
    held: SCORED_LEVELS.map((level) =>
      heldShare(uncertain, level, 'repair orders picked up of which something was uncertain'),
    ),
    singleAmounts: ratio(
      `${singles} and whose total stayed at or below it`,
      single.filter(({ score }) => score.p80Held).length,
      singles,
      single.length,
    ),
    overP80: scored
      .filter(({ score }) => !score.p80Held)
      .sort((a, b) => b.score.overCents - a.score.overCents || b.order.number - a.order.number)
      .map(overP80),
  });
}

function pickedUpIn(tx: Tx, { start, end }: Period): Promise<PickedUp[]> {
  return tx.rows<PickedUp>(
    `select id, number, picked_up_at as "pickedUpAt", (count(*) over ())::int as "all" from repair_orders
      where shop_id = $1 and picked_up_at >= $2 and picked_up_at < $3
      order by picked_up_at desc, number desc limit ${MOST_SCORED}`,
    [tx.shopId, start, end],
  );
}

async function scoreAll(tx: Tx, orders: readonly PickedUp[]): Promise<Scored[]> {
  const ids = orders.map(({ id }) => id);
  const revisions = await agreedRevisions(tx, ids);
  const lines = new Map<string, ReviewedLineRow[]>(ids.map((id) => [id, []]));
  for (const row of await reviewedLines(tx, 'l.repair_order_id = any($3::uuid[])', [ids]))
    lines.get(row.repairOrderId)?.push(row);
  const scored: Scored[] = [];
  for (const [at, order] of orders.entries()) {
    const one = scoreOrder(revisions.get(order.id) ?? [], lines.get(order.id) ?? []);
    if (one !== null) scored.push({ ...one, order });
    if (at % AT_A_TIME === AT_A_TIME - 1) await othersTurn();
  }
  return scored;
}

const scoredTotal = ({ range, score }: Scored): ScoredTotal => ({ range, totalCents: score.actualCents });

const overP80 = ({ order, range, score, contingencyCents, laterCents }: Scored): OverP80Response => ({
  repairOrderId: order.id,
  repairOrderNumber: order.number,
  pickedUpAt: order.pickedUpAt.toISOString(),
  totalCents: score.actualCents,
  p80Cents: range.p80Cents,
  overCents: score.overCents,
  contingencyCents,
  laterCents,
});
