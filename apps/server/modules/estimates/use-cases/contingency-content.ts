import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { ContingencyItemRow } from '../data/contingency-item.entity.js';
import type { ContingencyItemRequest } from '../dto/contingency.request.js';
import type { ContingencyResponse } from '../dto/contingency.response.js';
import { savedLine } from './saved-line.js';

interface Content {
  readonly hundredths: number;
  readonly items: readonly Pick<ContingencyItemRequest, 'kind' | 'condition' | 'source'>[];
}

/** Something extra must come of it, and a part says its condition and where it comes from, as on a line. */
export function checkContingency({ hundredths, items }: Content): Result<void> {
  const fields = items.flatMap((item, at): FieldFault[] =>
    (['condition', 'source'] as const).flatMap((field) =>
      item.kind === 'part' && item[field] == null
        ? [{ pointer: `/items/${at}/${field}`, detail: `Say the ${field} of the part.` }]
        : [],
    ),
  );
  if (hundredths === 0 && items.length === 0)
    fields.push({ pointer: '/hundredths', detail: 'Give the extra hours, or an item.' });
  if (fields.length === 0) return ok(undefined);
  return fail('request-invalid', `Look at ${fields.map(({ pointer }) => pointer).join(', ')}.`, { fields });
}

/** Its items anew. */
export async function storeItems(
  tx: Tx,
  of: { readonly contingencyId: string; readonly lineId: string },
  items: readonly ContingencyItemRequest[],
): Promise<void> {
  const key = { shopId: tx.shopId, ...of };
  await tx.em.delete(ContingencyItemRow, { shopId: tx.shopId, contingencyId: of.contingencyId });
  if (items.length === 0) return;
  await tx.em.insert(
    ContingencyItemRow,
    items.map((item, at) => ({
      ...key,
      id: tx.newId(),
      sequence: at + 1,
      kind: item.kind,
      name: item.name,
      partNumber: item.partNumber ?? null,
      condition: item.condition ?? null,
      source: item.source ?? null,
      quantityHundredths: item.quantityHundredths,
      unitPriceCents: item.unitPriceCents,
      unitCostCents: item.unitCostCents ?? null,
      coreCents: item.coreCents ?? 0,
    })),
  );
}

/** As it is after it was saved; its revision must still have a price. */
export async function savedContingency(
  tx: Tx,
  of: { readonly revisionId: string; readonly lineId: string; readonly contingencyId: string },
): Promise<Result<ContingencyResponse>> {
  const line = await savedLine(tx, of.revisionId, of.lineId);
  if (!line.ok) return line;
  const saved = line.value.contingencies.find(({ id }) => id === of.contingencyId);
  if (!saved) throw new Error('the contingency was just saved');
  return ok(saved);
}
