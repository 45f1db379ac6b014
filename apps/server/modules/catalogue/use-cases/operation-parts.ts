import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { OperationStepRow } from '../data/operation-step.entity.js';
import { OperationToolRow } from '../data/operation-tool.entity.js';
import type { OperationStepEntry } from '../dto/operation.request.js';

interface Parts {
  readonly steps?: readonly OperationStepEntry[];
  readonly toolIds?: readonly string[];
}

/** What an operation is made of must be there, once each; an operation without a step would be sold for nothing. */
export async function checkParts(tx: Tx, { steps, toolIds }: Parts): Promise<Result<void>> {
  const fields: FieldFault[] = [];
  if (steps?.length === 0) fields.push({ pointer: '/steps', detail: 'An operation has at least one step.' });
  const stepIds = steps?.map(({ stepId }) => stepId.toLowerCase()) ?? [];
  const known = await idsOf(tx, 'steps', stepIds);
  for (const [at, id] of stepIds.entries()) {
    const pointer = `/steps/${at}/stepId`;
    if (!known.has(id)) fields.push({ pointer, detail: 'This step is not in the catalogue.' });
    else if (stepIds.indexOf(id) !== at) fields.push({ pointer, detail: 'A step is listed once.' });
  }
  const tools = toolIds?.map((id) => id.toLowerCase()) ?? [];
  const ours = await idsOf(tx, 'special_tools', tools);
  for (const [at, id] of tools.entries())
    if (!ours.has(id))
      fields.push({ pointer: `/toolIds/${at}`, detail: 'This special tool is not in the shop.' });
  if (fields.length === 0) return ok(undefined);
  return fail('request-invalid', 'The operation names things that are not there, or names them twice.', {
    fields,
  });
}

async function idsOf(tx: Tx, table: 'steps' | 'special_tools', ids: readonly string[]): Promise<Set<string>> {
  const rows = await tx.rows<{ id: string }>(
    `select id from ${table} where shop_id = $1 and id = any($2::uuid[])`,
    [tx.shopId, ids],
  );
  return new Set(rows.map(({ id }) => id));
}

/** Replaces the lists that are given; the order of the steps is the order of the work. */
export async function storeParts(tx: Tx, operationId: string, { steps, toolIds }: Parts): Promise<void> {
  const of = { shopId: tx.shopId, operationId };
  if (steps) {
    await tx.em.delete(OperationStepRow, of);
    await tx.em.insert(
      OperationStepRow,
      steps.map(({ stepId, at }, index) => ({ ...of, stepId, at, sequence: index + 1 })),
    );
  }
  if (toolIds) {
    await tx.em.delete(OperationToolRow, of);
    const tools = [...new Set(toolIds.map((id) => id.toLowerCase()))];
    if (tools.length > 0)
      await tx.em.insert(
        OperationToolRow,
        tools.map((toolId) => ({ ...of, toolId })),
      );
  }
}
