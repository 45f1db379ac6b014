import { type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { LineRow } from '../data/line.entity.js';
import type { AddLineRequest } from '../dto/line.request.js';
import type { LineResponse } from '../dto/line.response.js';
import { countChange, draftOf } from './draft-revision.js';
import { checkContent, findingsFor, rateFor, stepsFor } from './line-content.js';
import { discountColumns } from './discount-columns.js';
import { priceItems } from './price-items.js';
import { relateLine } from './relate-line.js';
import { savedLine } from './saved-line.js';
import { spreadColumns } from './spread-columns.js';
import { storeLists } from './store-line.js';

/** Adds a line to the draft of a repair order; the first one begins the draft, also after a revision was sent. */
export async function addLine(
  tx: Tx,
  repairOrderId: string,
  request: AddLineRequest,
): Promise<Result<LineResponse>> {
  const content = checkContent(request);
  if (!content.ok) return content;
  const draft = await draftOf(tx, repairOrderId);
  if (!draft.ok) return draft;
  const { revisionId, vehicleId } = draft.value;
  const findings = await findingsFor(tx, vehicleId, request.findingIds ?? []);
  if (!findings.ok) return findings;
  const rate = await rateFor(tx, request.rateId);
  if (!rate.ok) return rate;
  const operations = request.operations ?? [];
  const steps = await stepsFor(tx, operations);
  if (!steps.ok) return steps;

  const items = await priceItems(tx, request.items ?? []);
  if (!items.ok) return items;
  const { worst, ids } = findings.value;
  const entered = request.enteredHundredths ?? null;
  const lineId = tx.newId();
  await tx.em.insert(LineRow, {
    shopId: tx.shopId,
    id: lineId,
    repairOrderId,
    revisionId,
    sequence: await nextSequence(tx, revisionId),
    title: request.title ?? worst?.title ?? '',
    explanation: request.explanation ?? worst?.explanation ?? null,
    consequence: request.consequence ?? worst?.consequence ?? null,
    stake: request.stake ?? null,
    ...spreadColumns(request.spread ?? null),
    ...discountColumns(request.discount),
    noCharge: request.noCharge ?? null,
    rateId: rate.value.rateId,
    rateCentsPerHour: rate.value.centsPerHour,
    enteredHundredths: entered,
    enteredSource: entered === null ? null : (request.enteredSource ?? null),
  });
  await storeLists(tx, lineId, {
    findingIds: ids,
    operations,
    // Entered hours stand for all of the work, so there are no steps that another line could share.
    steps: entered === null ? steps.value : [],
    items: items.value,
  });
  const related = await relateLine(tx, { revisionId, lineId }, request);
  if (!related.ok) return related;
  await countChange(tx, draft.value);
  await tx.audit('line.add', 'line', lineId, { repairOrderId, revisionId });
  return savedLine(tx, revisionId, lineId);
}

async function nextSequence(tx: Tx, revisionId: string): Promise<number> {
  const row = await tx.one<{ next: number }>(
    'select coalesce(max(sequence), 0) + 1 as next from lines where shop_id = $1 and revision_id = $2',
    [tx.shopId, revisionId],
  );
  return row?.next ?? 1;
}
