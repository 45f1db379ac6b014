import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { PartNeedResponse } from '../dto/part.response.js';
import { expectedOf } from './expected.js';

type Row = Omit<PartNeedResponse, 'expectedAt' | 'isOverdue' | 'missingHundredths' | 'told'> & {
  expectedAt: Date | null;
  toldAt: Date | null;
  toldBy: string;
  toldByName: string;
  toldNote: string | null;
};

/** What the approved lines of a repair order require, with what came in: the list that somebody orders parts from. */
export async function partNeeds(
  tx: Tx,
  repairOrderId: string,
): Promise<Result<{ items: PartNeedResponse[] }>> {
  const known = await tx.one('select id from repair_orders where shop_id = $1 and id = $2', [
    tx.shopId,
    repairOrderId,
  ]);
  if (!known) return fail('not-found', 'There is no such repair order in this shop.');
  const rows = await tx.rows<Row>(
    `select i.id as "lineItemId", l.id as "lineId", l.title as "lineTitle", w.id as "workOrderId", i.kind, i.name,
            i.part_number as "partNumber", i.condition, i.source, i.quantity_hundredths as "neededHundredths",
            coalesce((select sum(r.quantity_hundredths) from part_receipts r
                       where r.shop_id = i.shop_id and r.line_item_id = i.id), 0)::int as "receivedHundredths",
            expected.at as "expectedAt", expected.told_at as "toldAt", expected.told_by as "toldBy",
            teller.display_name as "toldByName", expected.note as "toldNote"
       from lines l
       join line_items i on i.shop_id = l.shop_id and i.line_id = l.id and i.kind in ('part', 'sublet')
       cross join lateral (select d.answer from decisions d where d.shop_id = l.shop_id and d.line_id = l.id
                            order by d.sequence desc limit 1) d
       ${expectedOf('i')}
       left join staff teller on teller.shop_id = l.shop_id and teller.id = expected.told_by
       left join work_orders w on w.shop_id = l.shop_id and w.line_id = l.id and w.withdrawn_at is null
      where l.shop_id = $1 and l.repair_order_id = $2 and d.answer = 'approved'
      order by w.number, i.sequence, i.id`,
    [tx.shopId, repairOrderId],
  );
  return ok({
    items: rows.map(({ toldAt, toldBy, toldByName, toldNote, expectedAt, ...row }) => ({
      ...row,
      missingHundredths: Math.max(0, row.neededHundredths - row.receivedHundredths),
      expectedAt: expectedAt?.toISOString() ?? null,
      isOverdue: row.receivedHundredths < row.neededHundredths && expectedAt !== null && expectedAt <= tx.now,
      told: toldAt && {
        at: toldAt.toISOString(),
        by: { id: toldBy, displayName: toldByName },
        note: toldNote,
      },
    })),
  });
}
