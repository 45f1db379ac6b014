import { cents } from '#libs/kernel';
import { readFrozen, type FrozenRevision } from '#libs/estimate';
import type { AgreedRevision } from '#libs/review';
import type { Tx } from '../../../platform/database/tx.js';
import { sentRangeFacts } from '../../estimates/index.js';

interface Row {
  readonly repairOrderId: string;
  readonly revisionId: string;
  readonly shown: FrozenRevision;
  readonly agreed: Readonly<Record<string, number>>;
}

export interface SentAndAgreed extends AgreedRevision {
  readonly revisionId: string;
}

/**
 * By repair order: the revisions that the owner had when he first agreed to a line that stands approved, with their
 * approved lines, the oldest first. What was sent afterwards he could not know of: it is what a range must foresee, so
 * it is no part of one.
 */
export async function agreedRevisions(
  tx: Tx,
  repairOrderIds: readonly string[],
): Promise<Map<string, SentAndAgreed[]>> {
  const rows = await tx.rows<Row>(
    `with standing as (
       select l.repair_order_id, l.revision_id, l.id, d.shown_total_cents,
              min(d.first_yes) over (partition by l.repair_order_id) as first_yes
         from lines l
         cross join lateral (
           select o.answer, o.shown_total_cents,
                  (select min(f.decided_at) from decisions f
                    where f.shop_id = o.shop_id and f.line_id = o.line_id and f.answer = 'approved') as first_yes
             from decisions o where o.shop_id = l.shop_id and o.line_id = l.id order by o.sequence desc limit 1) d
        where l.shop_id = $1 and l.repair_order_id = any($2::uuid[]) and d.answer = 'approved')
     select v.repair_order_id as "repairOrderId", v.id as "revisionId", v.shown, s.agreed
       from (select revision_id, first_yes, jsonb_object_agg(id, shown_total_cents) as agreed
               from standing group by revision_id, first_yes) s
       join revisions v on v.shop_id = $1 and v.id = s.revision_id
      where v.sent_at <= s.first_yes
      order by v.repair_order_id, v.number`,
    [tx.shopId, repairOrderIds],
  );
  const byOrder = new Map<string, SentAndAgreed[]>();
  for (const { repairOrderId, revisionId, shown, agreed } of rows) {
    const document = readFrozen(shown);
    const own: SentAndAgreed = {
      revisionId,
      document,
      commonSpreadPpm: sentRangeFacts(document).commonSpreadPpm,
      agreed: new Map(Object.entries(agreed).map(([id, total]) => [id, cents(total)])),
    };
    byOrder.set(repairOrderId, [...(byOrder.get(repairOrderId) ?? []), own]);
  }
  return byOrder;
}
