import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { lockArrivingItem } from '../data/arriving-item.js';
import { PartReceiptRow } from '../data/part-receipt.entity.js';
import type { ReceivePartRequest } from '../dto/part.request.js';
import type { PartReceiptResponse } from '../dto/part.response.js';

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
  const found = await lockArrivingItem(tx, lineItemId);
  if (!found.ok) return found;
  const item = found.value;
  const before = item.receivedHundredths;
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
