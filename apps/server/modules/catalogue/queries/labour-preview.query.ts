import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import { expandPositions } from '#libs/estimate';
import { alone, shares, together, type LabourOperation } from '#libs/labour';
import type { Tx } from '../../../platform/database/tx.js';
import type { LabourPreviewRequest, LabourPreviewResponse, PreviewedLabour } from '../dto/labour-preview.js';
import { catalogueOperations, type KnownOperation } from './catalogue-operations.query.js';

interface Chosen {
  readonly known: KnownOperation;
  readonly positions: readonly string[];
  readonly labour: LabourOperation;
}

/** What operations cost in book hours: each alone, all in one visit, and how the shared steps fall on them. */
export async function previewLabour(
  tx: Tx,
  request: LabourPreviewRequest,
): Promise<Result<LabourPreviewResponse>> {
  const known = await catalogueOperations(
    tx,
    request.operations.map(({ operationId }) => operationId),
  );
  if (!known.ok) return known;
  const chosen: Chosen[] = [];
  const fields: FieldFault[] = [];
  for (const [at, { operationId, positions }] of request.operations.entries()) {
    const operation = known.value.get(operationId.toLowerCase());
    if (!operation) throw new Error('every id was just found');
    const expanded = expandPositions(operation, positions);
    if (!expanded.ok) {
      fields.push({
        pointer: `/operations/${at}/positions`,
        detail: wording(expanded.fault.code, operation),
      });
      continue;
    }
    // The place in the request keeps an operation that is asked for twice apart.
    chosen.push({ known: operation, positions, labour: { id: String(at), steps: expanded.value } });
  }
  if (fields.length > 0)
    return fail('position-not-possible', 'Some operations cannot be done there.', { fields });
  return priced(chosen);
}

function wording(code: string, { name }: KnownOperation): string {
  return code === 'position-missing'
    ? `Say where "${name}" is done.`
    : `"${name}" has a step per corner or axle, and this position has none. Choose a corner or an axle.`;
}

function priced(chosen: readonly Chosen[]): Result<LabourPreviewResponse> {
  const all = chosen.map(({ labour }) => labour);
  const total = together(all);
  if (!total.ok) return total;
  const parts = shares(all);
  if (!parts.ok) return parts;
  const operations: PreviewedLabour[] = [];
  for (const { known, positions, labour } of chosen) {
    const own = alone(labour);
    if (!own.ok) return own;
    operations.push({
      operationId: known.id,
      code: known.code,
      name: known.name,
      positions: [...positions],
      aloneHundredths: own.value,
      shareHundredths: parts.value.get(labour.id) ?? 0,
    });
  }
  return ok({ operations, togetherHundredths: total.value });
}
