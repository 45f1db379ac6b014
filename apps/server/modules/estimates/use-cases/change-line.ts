import { fail, ok, type Result } from '#libs/kernel';
import type { LabourStep } from '#libs/labour';
import { isPosition } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { LineRow } from '../data/line.entity.js';
import type { AddLineRequest, ChangeLineRequest } from '../dto/line.request.js';
import type { LineResponse } from '../dto/line.response.js';
import { linesOf, type LineFacts } from '../queries/lines.query.js';
import { countChange, draftOfLine, type Draft } from './draft-revision.js';
import { checkContent, findingsFor, rateFor, stepsFor } from './line-content.js';
import { discountColumns } from './discount-columns.js';
import { priceItems } from './price-items.js';
import { relateLine } from './relate-line.js';
import { savedLine } from './saved-line.js';
import { spreadColumns } from './spread-columns.js';
import { storeLists } from './store-line.js';

/** The line as it would be ordered anew: what is stored, with what the request changes. */
function merged(line: LineFacts, request: ChangeLineRequest): AddLineRequest {
  return {
    findingIds: request.findingIds ?? line.findings.map(({ findingId }) => findingId),
    title: request.title ?? line.title,
    operations:
      request.operations ??
      line.operations.map(({ operationId, positions }) => ({
        operationId,
        positions: positions.filter(isPosition),
      })),
    enteredHundredths:
      request.enteredHundredths === undefined ? line.enteredHundredths : request.enteredHundredths,
    enteredSource: request.enteredSource === undefined ? line.enteredSource : request.enteredSource,
    // Parts that are stored were checked when they were saved; only their number matters here.
    items: request.items ?? (line.items.map((item) => ({ ...item, kind: 'fee' })) as AddLineRequest['items']),
  };
}

/** Steps anew where the work or its hours changed; undefined where the stored hours stand. */
async function newSteps(
  tx: Tx,
  request: ChangeLineRequest,
  line: AddLineRequest,
): Promise<Result<LabourStep[] | undefined>> {
  if (request.operations === undefined && request.enteredHundredths === undefined) return ok(undefined);
  const steps = await stepsFor(tx, line.operations ?? []);
  if (!steps.ok) return steps;
  return ok(line.enteredHundredths === null ? steps.value : []);
}

/** Changes a line of a draft. What the request leaves out stays, hours included, whatever the catalogue says now. */
export async function changeLine(
  tx: Tx,
  lineId: string,
  version: number | '*',
  request: ChangeLineRequest,
): Promise<Result<LineResponse>> {
  const draft = await draftOfLine(tx, lineId, version);
  if (!draft.ok) return draft;
  const { revisionId, vehicleId } = draft.value;
  const line = (await linesOf(tx, { revisionId })).find(({ id }) => id === lineId);
  if (!line) return fail('not-found', 'There is no such line in this shop.');
  const wanted = merged(line, request);
  const content = checkContent(wanted);
  if (!content.ok) return content;
  const findings = await findingsFor(tx, vehicleId, request.findingIds ?? []);
  if (!findings.ok) return findings;
  const steps = await newSteps(tx, request, wanted);
  if (!steps.ok) return steps;
  const items = request.items === undefined ? undefined : await priceItems(tx, request.items);
  if (items && !items.ok) return items;
  const saved = await saveHead(tx, line, request, wanted);
  if (!saved.ok) return saved;
  await storeLists(tx, lineId, {
    findingIds: request.findingIds === undefined ? undefined : findings.value.ids,
    operations: request.operations,
    steps: steps.value,
    items: items?.value,
  });
  const related = await relateLine(tx, { revisionId, lineId }, request);
  if (!related.ok) return related;
  return finish(tx, draft.value, lineId, request);
}

async function saveHead(
  tx: Tx,
  line: LineFacts,
  request: ChangeLineRequest,
  wanted: AddLineRequest,
): Promise<Result<void>> {
  const rate = request.rateId === undefined ? undefined : await rateFor(tx, request.rateId);
  if (rate && !rate.ok) return rate;
  await tx.em.update(
    LineRow,
    { shopId: tx.shopId, id: line.id },
    {
      title: wanted.title,
      explanation: request.explanation === undefined ? line.explanation : request.explanation,
      consequence: request.consequence === undefined ? line.consequence : request.consequence,
      stake: request.stake === undefined ? line.stake : request.stake,
      ...spreadColumns(request.spread === undefined ? line.spread : request.spread),
      noCharge: request.noCharge === undefined ? line.noCharge : request.noCharge,
      ...(request.discount === undefined ? {} : discountColumns(request.discount)),
      rateId: rate?.value.rateId ?? line.rateId,
      rateCentsPerHour: rate?.value.centsPerHour ?? line.rateCentsPerHour,
      enteredHundredths: wanted.enteredHundredths,
      enteredSource: wanted.enteredHundredths === null ? null : wanted.enteredSource,
    },
  );
  return ok(undefined);
}

async function finish(
  tx: Tx,
  draft: Draft,
  lineId: string,
  request: ChangeLineRequest,
): Promise<Result<LineResponse>> {
  await countChange(tx, draft);
  await tx.audit('line.change', 'line', lineId, { fields: Object.keys(request) });
  return savedLine(tx, draft.revisionId, lineId);
}
