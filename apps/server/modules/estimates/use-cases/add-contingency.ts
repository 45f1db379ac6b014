import { type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { ContingencyRow } from '../data/contingency.entity.js';
import type { AddContingencyRequest } from '../dto/contingency.request.js';
import type { ContingencyResponse } from '../dto/contingency.response.js';
import { checkContingency, savedContingency, storeItems } from './contingency-content.js';
import { countChange, draftOfLine } from './draft-revision.js';

/** Adds to a line of a draft what may happen under way, and what it would cost at most. */
export async function addContingency(
  tx: Tx,
  lineId: string,
  request: AddContingencyRequest,
): Promise<Result<ContingencyResponse>> {
  const { what, chancePpm, hundredths, capCents, items = [] } = request;
  const content = checkContingency({ hundredths, items });
  if (!content.ok) return content;
  const draft = await draftOfLine(tx, lineId, '*');
  if (!draft.ok) return draft;
  const { revisionId } = draft.value;
  const contingencyId = tx.newId();
  await tx.em.insert(ContingencyRow, {
    shopId: tx.shopId,
    id: contingencyId,
    lineId,
    sequence: await nextSequence(tx, lineId),
    what,
    chancePpm,
    hundredths,
    capCents,
  });
  await storeItems(tx, { contingencyId, lineId }, items);
  await countChange(tx, draft.value);
  await tx.audit('contingency.add', 'contingency', contingencyId, { lineId, revisionId, capCents });
  return savedContingency(tx, { revisionId, lineId, contingencyId });
}

async function nextSequence(tx: Tx, lineId: string): Promise<number> {
  const row = await tx.one<{ next: number }>(
    'select coalesce(max(sequence), 0) + 1 as next from contingencies where shop_id = $1 and line_id = $2',
    [tx.shopId, lineId],
  );
  return row?.next ?? 1;
}
