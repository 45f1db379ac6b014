import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { PartReceiptRow } from '../data/part-receipt.entity.js';
import type { ReceivePartRequest } from '../dto/part.request.js';
import type { PartReceiptResponse } from '../dto/part.response.js';

interface Item {
  kind: string;
  name: string;
  neededHundredths: number;
  lineId: string;
  repairOrderId: string;
  isSent: boolean;
}

/** The most that one item can ever have received: far beyond any shop, and within the database's whole numbers. */
const MOST = 100_000_000;

/**
 * A part came in (from wherever: stock, supplier, donor vehicle, the customer), or sublet work came back. A mistake is
 * put right by a further receipt with a negative quantity; nothing is ever rewritten.
 */
export async function receivePart(
  tx: Tx,
  lineItemId: string,
  { quantityHundredths, note }: ReceivePartRequest,
): Promise<Result<PartReceiptResponse>> {
  const item = await lockItem(tx, lineItemId);
  if (!item) return fail('not-found', 'There is no such item in this shop.');
  if (item.kind !== 'part' && item.kind !== 'sublet')
    return fail(
      'item-does-not-arrive',
      `"${item.name}" is a ${item.kind}; only parts and sublet work come in.`,
    );
  if (!item.isSent)
    return fail('revision-not-sent', 'Send the revision first: until then the item may still change.');
  const before = await receivedOf(tx, lineItemId);
  const after = before + quantityHundredths;
  if (quantityHundredths === 0 || after < 0 || after > MOST)
    return fail('request-invalid', `So far ${before} hundredths of "${item.name}" have come in.`, {
      fields: [
        {
          pointer: '/quantityHundredths',
          detail: `Give what came in, or a negative quantity down to -${before} to correct it; not zero.`,
        },
      ],
    });
  const id = tx.newId();
  await tx.em.insert(PartReceiptRow, {
    shopId: tx.shopId,
    id,
    lineItemId,
    quantityHundredths,
    receivedAt: tx.now,
    receivedBy: tx.staffId,
    note: note ?? null,
  });
  await tx.audit('part.receive', 'line-item', lineItemId, { quantityHundredths, note: note ?? null });
  tx.announce('part', { lineItemId, lineId: item.lineId, repairOrderId: item.repairOrderId });
  return ok({
    id,
    lineItemId,
    quantityHundredths,
    receivedAt: tx.now.toISOString(),
    receivedBy: tx.staffId,
    note: note ?? null,
    neededHundredths: item.neededHundredths,
    receivedHundredths: after,
  });
}

/** The lock makes two corrections at once see each other; the sum is read after it, in a statement of its own. */
async function lockItem(tx: Tx, lineItemId: string): Promise<Item | undefined> {
  return tx.one<Item>(
    `select i.kind, i.name, i.quantity_hundredths as "neededHundredths", i.line_id as "lineId",
            l.repair_order_id as "repairOrderId", r.sent_at is not null as "isSent"
       from line_items i join lines l on l.shop_id = i.shop_id and l.id = i.line_id
       join revisions r on r.shop_id = l.shop_id and r.id = l.revision_id
      where i.shop_id = $1 and i.id = $2 for update of i`,
    [tx.shopId, lineItemId],
  );
}

async function receivedOf(tx: Tx, lineItemId: string): Promise<number> {
  const sum = await tx.one<{ received: number }>(
    `select coalesce(sum(quantity_hundredths), 0)::int as received from part_receipts
      where shop_id = $1 and line_item_id = $2`,
    [tx.shopId, lineItemId],
  );
  return sum?.received ?? 0;
}
