import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';

/** An item of a sent line that comes in, and how much of it has. */
export interface ArrivingItem {
  readonly kind: string;
  readonly name: string;
  readonly neededHundredths: number;
  readonly receivedHundredths: number;
  readonly lineId: string;
  readonly repairOrderId: string;
}

type Row = Omit<ArrivingItem, 'receivedHundredths'> & { readonly isSent: boolean };

/**
 * The lock makes two who tell about the same item see each other; what has come in is read after it, in a statement of
 * its own.
 */
export async function lockArrivingItem(tx: Tx, lineItemId: string): Promise<Result<ArrivingItem>> {
  const row = await tx.one<Row>(
    `select i.kind, i.name, i.quantity_hundredths as "neededHundredths", i.line_id as "lineId",
            l.repair_order_id as "repairOrderId", r.sent_at is not null as "isSent"
       from line_items i join lines l on l.shop_id = i.shop_id and l.id = i.line_id
       join revisions r on r.shop_id = l.shop_id and r.id = l.revision_id
      where i.shop_id = $1 and i.id = $2 for update of i`,
    [tx.shopId, lineItemId],
  );
  if (!row) return fail('not-found', 'There is no such item in this shop.');
  const { isSent, ...item } = row;
  if (item.kind !== 'part' && item.kind !== 'sublet')
    return fail(
      'item-does-not-arrive',
      `"${item.name}" is a ${item.kind}; only parts and sublet work come in.`,
    );
  if (!isSent)
    return fail('revision-not-sent', 'Send the revision first: until then the item may still change.');
  return ok({ ...item, receivedHundredths: await receivedOf(tx, lineItemId) });
}

async function receivedOf(tx: Tx, lineItemId: string): Promise<number> {
  const sum = await tx.one<{ received: number }>(
    `select coalesce(sum(quantity_hundredths), 0)::int as received from part_receipts
      where shop_id = $1 and line_item_id = $2`,
    [tx.shopId, lineItemId],
  );
  return sum?.received ?? 0;
}
