import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { LineRow } from '../data/line.entity.js';
import { removeContingenciesOf } from './change-contingency.js';
import { countChange, draftOfLine } from './draft-revision.js';
import { unrelateLine } from './relate-line.js';
import { storeLists } from './store-line.js';

/** Takes a line out of a draft. The draft stays, also when it was the last one. */
export async function removeLine(tx: Tx, lineId: string, version: number | '*'): Promise<Result<void>> {
  const draft = await draftOfLine(tx, lineId, version);
  if (!draft.ok) return draft;
  await removeContingenciesOf(tx, lineId);
  await storeLists(tx, lineId, { findingIds: [], operations: [], steps: [], items: [] });
  await unrelateLine(tx, lineId);
  await tx.em.delete(LineRow, { shopId: tx.shopId, id: lineId });
  await countChange(tx, draft.value);
  await tx.audit('line.remove', 'line', lineId, { revisionId: draft.value.revisionId });
  return ok(undefined);
}
