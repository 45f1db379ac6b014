import type { LabourStep } from '#libs/labour';
import type { Tx } from '../../../platform/database/tx.js';
import { LineFindingRow } from '../data/line-finding.entity.js';
import { LineItemRow } from '../data/line-item.entity.js';
import { LineOperationRow } from '../data/line-operation.entity.js';
import { LineStepRow } from '../data/line-step.entity.js';
import { stepRates } from '../../catalogue/index.js';
import type { LineOperationRequest } from '../dto/line.request.js';
import type { PricedItemRequest } from './price-items.js';

/** The parts of a line that are lists. One that is undefined stays as it is stored. */
export interface LineLists {
  readonly findingIds?: readonly string[] | undefined;
  readonly operations?: readonly LineOperationRequest[] | undefined;
  readonly steps?: readonly LabourStep[] | undefined;
  readonly items?: readonly PricedItemRequest[] | undefined;
}

export async function storeLists(tx: Tx, lineId: string, lists: LineLists): Promise<void> {
  const key = { shopId: tx.shopId, lineId };
  const { findingIds, operations, steps, items } = lists;
  if (findingIds) {
    await tx.em.delete(LineFindingRow, key);
    if (findingIds.length > 0)
      await tx.em.insert(
        LineFindingRow,
        findingIds.map((findingId) => ({ ...key, findingId })),
      );
  }
  if (operations) {
    await tx.em.delete(LineOperationRow, key);
    if (operations.length > 0)
      await tx.em.insert(
        LineOperationRow,
        operations.map(({ operationId, positions }) => ({
          ...key,
          operationId,
          positions: [...new Set(positions)],
        })),
      );
  }
  if (steps) {
    await tx.em.delete(LineStepRow, key);
    const rates = await stepRates(
      tx,
      steps.map(({ step }) => step),
    );
    if (steps.length > 0)
      await tx.em.insert(
        LineStepRow,
        steps.map(({ step, position, hundredths }) => ({
          ...key,
          stepId: step,
          position,
          hundredths,
          rateId: rates.get(step)?.rateId ?? null,
          rateCentsPerHour: rates.get(step)?.centsPerHour ?? null,
        })),
      );
  }
  if (items) {
    await tx.em.delete(LineItemRow, key);
    if (items.length > 0)
      await tx.em.insert(
        LineItemRow,
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
          priceRule: item.priceRule,
          listCents: item.listCents ?? null,
          marginPpm: item.marginPpm ?? null,
          priceBreakdown: item.priceBreakdown,
          coreCents: item.coreCents ?? 0,
          expectedAt: item.expectedAt == null ? null : new Date(item.expectedAt),
        })),
      );
  }
}
