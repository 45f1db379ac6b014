import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { lockArrivingItem } from '../data/arriving-item.js';
import { PartExpectationRow } from '../data/part-expectation.entity.js';
import type { ExpectPartRequest } from '../dto/part.request.js';
import type { PartExpectationResponse } from '../dto/part.response.js';

/**
 * Somebody heard when a part or sublet work will come: sooner or later than the sent line says, or that nobody knows.
 * The plan follows it. The sent document stays as it was.
 */
export async function expectPart(
  tx: Tx,
  lineItemId: string,
  { expectedAt, note }: ExpectPartRequest,
): Promise<Result<PartExpectationResponse>> {
  const found = await lockArrivingItem(tx, lineItemId);
  if (!found.ok) return found;
  const item = found.value;
  if (item.receivedHundredths >= item.neededHundredths)
    return fail('item-all-here', `Everything of "${item.name}" has come in. Correct the receipts if not.`);
  const at = expectedAt === null ? null : new Date(expectedAt);
  if (at !== null && at <= tx.now)
    return fail('request-invalid', 'That time has passed.', {
      fields: [
        {
          pointer: '/expectedAt',
          detail: 'Give a time that is still to come, or null when nobody knows it.',
        },
      ],
    });
  const id = tx.newId();
  await tx.em.insert(PartExpectationRow, {
    ...{ shopId: tx.shopId, id, lineItemId, sequence: await nextSequence(tx, lineItemId) },
    ...{ expectedAt: at, toldAt: tx.now, toldBy: tx.staffId, note: note ?? null },
  });
  const told = { expectedAt: at?.toISOString() ?? null, note: note ?? null };
  await tx.audit('part.expect', 'line-item', lineItemId, told);
  tx.announce('part', { lineItemId, lineId: item.lineId, repairOrderId: item.repairOrderId });
  return ok({ id, lineItemId, ...told, toldAt: tx.now.toISOString(), toldBy: tx.staffId });
}

async function nextSequence(tx: Tx, lineItemId: string): Promise<number> {
  const row = await tx.one<{ next: number }>(
    `select coalesce(max(sequence), 0) + 1 as next from part_expectations where shop_id = $1 and line_item_id = $2`,
    [tx.shopId, lineItemId],
  );
  return row?.next ?? 1;
}
