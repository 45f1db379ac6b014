import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { RevisionRow } from '../data/revision.entity.js';
import type { OrderDiscountRequest } from '../dto/discount.js';
import type { RevisionResponse } from '../dto/revision.response.js';
import { revisionOf } from '../queries/estimate.query.js';
import { countChange, draftById } from './draft-revision.js';

type DiscountColumns = Pick<
  RevisionRow,
  'discountLabourPpm' | 'discountItemsPpm' | 'discountCents' | 'discountReason'
>;

const NONE: DiscountColumns = {
  discountLabourPpm: null,
  discountItemsPpm: null,
  discountCents: null,
  discountReason: null,
};

function columnsFrom(request: OrderDiscountRequest): Result<DiscountColumns> {
  const labour = request.labourPpm ?? 0;
  const items = request.itemsPpm ?? 0;
  const amount = request.cents ?? 0;
  if (labour + items + amount === 0) return ok(NONE);
  const fields: FieldFault[] = [];
  if (amount > 0 && labour + items > 0)
    fields.push({ pointer: '/cents', detail: 'Give an amount or percentages, not both.' });
  if (request.reason == null) fields.push({ pointer: '/reason', detail: 'Say why; the owner reads it.' });
  if (fields.length > 0)
    return fail('request-invalid', `Look at ${fields.map(({ pointer }) => pointer).join(', ')}.`, { fields });
  return ok({
    discountLabourPpm: labour === 0 ? null : labour,
    discountItemsPpm: items === 0 ? null : items,
    discountCents: amount === 0 ? null : amount,
    discountReason: request.reason ?? null,
  });
}

/** Sets what is taken off a whole draft; nothing given takes the discount away again. */
export async function discountOrder(
  tx: Tx,
  revisionId: string,
  version: number | '*',
  request: OrderDiscountRequest,
): Promise<Result<RevisionResponse>> {
  const draft = await draftById(tx, revisionId, version);
  if (!draft.ok) return draft;
  const columns = columnsFrom(request);
  if (!columns.ok) return columns;
  await tx.em.update(RevisionRow, { shopId: tx.shopId, id: revisionId }, columns.value);
  await countChange(tx, draft.value);
  await tx.audit('revision.discount', 'revision', revisionId, { ...columns.value });
  return revisionOf(tx, revisionId);
}
