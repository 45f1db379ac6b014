import { bookHundredths, fail, ok, type Result } from '#libs/kernel';
import type { CatalogueOperation, StepPlace } from '#libs/estimate';
import type { OperationNeeds } from '#libs/schedule';
import type { Tx } from '../../../platform/database/tx.js';
import { operationsByIds } from './operations.query.js';

/** An operation as the computations take it: steps by step id, and what it asks of the floor. */
export interface KnownOperation extends CatalogueOperation, OperationNeeds {
  readonly code: string;
  readonly name: string;
  readonly isActive: boolean;
}

/**
 * Operations by id, with their steps in order. An id that this shop does not have is `not-found`, and `facts.unknown`
 * lists all such ids.
 */
export async function catalogueOperations(
  tx: Tx,
  ids: readonly string[],
): Promise<Result<Map<string, KnownOperation>>> {
  const rows = await operationsByIds(tx, ids);
  const found = new Map<string, KnownOperation>(
    rows.map(({ id, steps, tools, ...row }) => [
      id,
      {
        id,
        code: row.code,
        name: row.name,
        isActive: row.isActive,
        needsLift: row.needsLift,
        bayKinds: row.bayKinds,
        skills: row.skills,
        cautions: row.cautions,
        toolIds: tools.map(({ toolId }) => toolId),
        steps: steps.map(({ stepId, at, hundredths }) => ({
          step: stepId,
          // the check operation_steps_at admits only these
          at: at as StepPlace,
          hundredths: bookHundredths(hundredths),
        })),
      },
    ]),
  );
  const unknown = [...new Set(ids)].filter((id) => !found.has(id.toLowerCase()));
  if (unknown.length > 0)
    return fail('not-found', 'Some of these operations are not in this shop.', { facts: { unknown } });
  return ok(found);
}
