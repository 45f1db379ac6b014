import type { Tx } from '../../../platform/database/tx.js';
import { entrySeconds } from '../../work-orders/index.js';

/** An approved line with what was agreed, and who spent how long on it. */
export interface ReviewedLineRow {
  readonly lineId: string;
  readonly title: string;
  readonly repairOrderId: string;
  readonly repairOrderNumber: number;
  readonly workOrderId: string | null;
  readonly workOrderNumber: number | null;
  readonly finishedAt: Date | null;
  readonly checkedAt: Date | null;
  readonly soldHundredths: number;
  readonly labourCents: number;
  readonly partsCents: number;
  readonly totalCents: number;
  /** Of these: what contingencies that happened have added. */
  readonly contingencyHundredths: number;
  readonly contingencyCents: number;
  readonly clocked: readonly { technicianId: string; displayName: string; seconds: number }[];
}

/** `$1` and `$2` are the shop and the time; the condition's own values follow. Superseded entries count nowhere. */
export function reviewedLines(
  tx: Tx,
  condition: string,
  values: readonly unknown[],
): Promise<ReviewedLineRow[]> {
  return tx.rows<ReviewedLineRow>(
    `select l.id as "lineId", l.title, l.repair_order_id as "repairOrderId", ro.number as "repairOrderNumber",
            w.id as "workOrderId", w.number as "workOrderNumber", w.finished_at as "finishedAt", w.checked_at as "checkedAt",
            d.shown_hundredths + x.hundredths as "soldHundredths", d.shown_labour_cents + x.labour_cents as "labourCents",
            d.shown_parts_cents + x.parts_cents as "partsCents", d.shown_total_cents + x.total_cents as "totalCents",
            x.hundredths as "contingencyHundredths", x.total_cents as "contingencyCents", coalesce(c.clocked, '[]') as clocked
       from lines l
       join repair_orders ro on ro.shop_id = l.shop_id and ro.id = l.repair_order_id
       cross join lateral (select d.* from decisions d where d.shop_id = l.shop_id and d.line_id = l.id
                            order by d.sequence desc limit 1) d
       left join work_orders w on w.shop_id = l.shop_id and w.line_id = l.id and w.withdrawn_at is null
       cross join lateral (
         select coalesce(sum(t.hundredths), 0)::int as hundredths, coalesce(sum(t.labour_cents), 0)::int as labour_cents,
                coalesce(sum(t.parts_cents + t.core_cents), 0)::int as parts_cents, coalesce(sum(t.total_cents), 0)::int as total_cents
           from contingency_triggers t where t.shop_id = $1 and t.work_order_id = w.id) x
       left join lateral (
         select jsonb_agg(jsonb_build_object('technicianId', t.technician_id, 'displayName', s.display_name,
                  'seconds', t.seconds) order by t.technician_id::text) as clocked
           from (select e.technician_id, sum(${entrySeconds('e')})::int as seconds from clock_entries e
                  where e.shop_id = $1 and e.work_order_id = w.id and e.superseded_at is null
                  group by e.technician_id) t
           join staff s on s.shop_id = $1 and s.id = t.technician_id) c on true
      where l.shop_id = $1 and d.answer = 'approved' and ${condition}
      order by w.finished_at nulls last, w.number, l.id`,
    [tx.shopId, tx.now, ...values],
  );
}
