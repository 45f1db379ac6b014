import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { ContingencyItemRow } from '../data/contingency-item.entity.js';
import { ContingencyRow } from '../data/contingency.entity.js';
import type { ChangeContingencyRequest } from '../dto/contingency.request.js';
import type { ContingencyResponse } from '../dto/contingency.response.js';
import { contingenciesOf, type ContingencyFacts } from '../queries/contingencies.query.js';
import { checkContingency, savedContingency, storeItems } from './contingency-content.js';
import { countChange, draftOfLine, type Draft } from './draft-revision.js';

const UNKNOWN = 'There is no such contingency in this shop.';

/** The contingency with the draft it is in, held. */
async function inDraft(
  tx: Tx,
  contingencyId: string,
  version: number | '*',
): Promise<Result<{ draft: Draft; contingency: ContingencyFacts }>> {
  const row = await tx.em.findOneBy(ContingencyRow, { shopId: tx.shopId, id: contingencyId });
  if (!row) return fail('not-found', UNKNOWN);
  const draft = await draftOfLine(tx, row.lineId, version);
  if (!draft.ok) return draft;
  const contingency = (await contingenciesOf(tx, { lineId: row.lineId })).find(
    ({ id }) => id === contingencyId,
  );
  return contingency ? ok({ draft: draft.value, contingency }) : fail('not-found', UNKNOWN);
}

/** Changes a contingency of a draft. What the request leaves out stays. */
export async function changeContingency(
  tx: Tx,
  contingencyId: string,
  version: number | '*',
  request: ChangeContingencyRequest,
): Promise<Result<ContingencyResponse>> {
  const held = await inDraft(tx, contingencyId, version);
  if (!held.ok) return held;
  const { draft, contingency } = held.value;
  const { lineId } = contingency;
  const hundredths = request.hundredths ?? contingency.hundredths;
  // Items that are stored were checked when they were saved; only their number matters here.
  const items = request.items ?? contingency.items.map(() => ({ kind: 'fee' as const }));
  const content = checkContingency({ hundredths, items });
  if (!content.ok) return content;
  await tx.em.update(
    ContingencyRow,
    { shopId: tx.shopId, id: contingencyId },
    {
      what: request.what ?? contingency.what,
      chancePpm: request.chancePpm ?? contingency.chancePpm,
      hundredths,
      capCents: request.capCents ?? contingency.capCents,
    },
  );
  if (request.items) await storeItems(tx, { contingencyId, lineId }, request.items);
  await countChange(tx, draft);
  await tx.audit('contingency.change', 'contingency', contingencyId, { fields: Object.keys(request) });
  return savedContingency(tx, { revisionId: draft.revisionId, lineId, contingencyId });
}

/** Takes a contingency off its line. */
export async function removeContingency(
  tx: Tx,
  contingencyId: string,
  version: number | '*',
): Promise<Result<void>> {
  const held = await inDraft(tx, contingencyId, version);
  if (!held.ok) return held;
  const { draft, contingency } = held.value;
  await tx.em.delete(ContingencyItemRow, { shopId: tx.shopId, contingencyId });
  await tx.em.delete(ContingencyRow, { shopId: tx.shopId, id: contingencyId });
  await countChange(tx, draft);
  await tx.audit('contingency.remove', 'contingency', contingencyId, { lineId: contingency.lineId });
  return ok(undefined);
}

/** With its line go all contingencies of it. */
export async function removeContingenciesOf(tx: Tx, lineId: string): Promise<void> {
  await tx.em.delete(ContingencyItemRow, { shopId: tx.shopId, lineId });
  await tx.em.delete(ContingencyRow, { shopId: tx.shopId, lineId });
}
