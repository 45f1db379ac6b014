import { fail, ok, type Result } from '#libs/kernel';
import { contingencyState } from '#libs/approval';
import type { Tx } from '../../../platform/database/tx.js';
import { contingenciesOf, offeredContingency, triggerResponse } from '../../estimates/index.js';
import type { WorkContingenciesResponse } from '../dto/trigger.response.js';

/** What may happen on a work order. */
export async function contingenciesOfWork(
  tx: Tx,
  workOrderId: string,
): Promise<Result<WorkContingenciesResponse>> {
  const work = await tx.one<{ lineId: string }>(
    'select line_id as "lineId" from work_orders where shop_id = $1 and id = $2',
    [tx.shopId, workOrderId],
  );
  if (!work) return fail('not-found', 'There is no such work order in this shop.');
  const contingencies = await contingenciesOf(tx, { lineId: work.lineId });
  return ok({
    workOrderId,
    items: contingencies.map((one) => ({
      contingencyId: one.id,
      what: one.what,
      hundredths: one.hundredths,
      items: one.items.map(({ id, name, quantityHundredths }) => ({
        itemId: id,
        words: name,
        quantityHundredths,
      })),
      state: contingencyState(offeredContingency(one)),
      trigger: one.trigger === null ? null : triggerResponse(one.trigger),
    })),
  });
}
