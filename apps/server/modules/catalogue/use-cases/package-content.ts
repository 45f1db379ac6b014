import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import { expandPositions } from '#libs/estimate';
import { together, type LabourOperation } from '#libs/labour';
import type { Tx } from '../../../platform/database/tx.js';
import { PackageOperationRow } from '../data/package-operation.entity.js';
import type { PackageOperationEntry } from '../dto/package.js';
import { catalogueOperations } from '../queries/catalogue-operations.query.js';

export interface PackageContent {
  readonly hundredths: number;
  readonly operations: readonly PackageOperationEntry[];
}

function invalid(fields: FieldFault[]): Result<never> {
  return fail('request-invalid', `Look at ${fields.map(({ pointer }) => pointer).join(', ')}.`, { fields });
}

/** Each operation of the package with the steps that it takes where it is done. */
async function expanded(
  tx: Tx,
  operations: readonly PackageOperationEntry[],
): Promise<Result<LabourOperation[]>> {
  const ids = operations.map(({ operationId }) => operationId.toLowerCase());
  const known = await catalogueOperations(tx, ids);
  const missing = known.ok ? [] : ((known.fault.facts?.['unknown'] ?? []) as string[]);
  const fields: FieldFault[] = [];
  const found: LabourOperation[] = [];
  for (const [at, { positions }] of operations.entries()) {
    const id = ids[at] ?? '';
    const pointer = `/operations/${at}`;
    const operation = known.ok ? known.value.get(id) : undefined;
    if (missing.includes(id))
      fields.push({ pointer: `${pointer}/operationId`, detail: 'This shop has no such operation.' });
    else if (ids.indexOf(id) !== at)
      fields.push({
        pointer: `${pointer}/operationId`,
        detail: 'List an operation once, with all its positions.',
      });
    else if (operation) {
      const steps = expandPositions(operation, positions);
      if (steps.ok) found.push({ id, steps: steps.value });
      else fields.push({ pointer: `${pointer}/positions`, detail: 'The operation cannot be done there.' });
    }
  }
  return fields.length > 0 ? invalid(fields) : ok(found);
}

function hoursOf(operations: readonly LabourOperation[]): Result<number> {
  const hours = together(operations);
  return hours.ok ? ok(hours.value) : fail('request-invalid', hours.fault.detail);
}

/**
 * A package replaces the sum of its steps, so its hours lie between what any part of it takes and what all of it takes:
 * otherwise one operation more would lower the price.
 */
export async function checkPackage(tx: Tx, content: PackageContent): Promise<Result<void>> {
  if (content.operations.length < 2)
    return invalid([{ pointer: '/operations', detail: 'A package is of two operations or more.' }]);
  const operations = await expanded(tx, content.operations);
  if (!operations.ok) return operations;
  const all = hoursOf(operations.value);
  if (!all.ok) return all;
  let least = 0;
  for (const left of operations.value) {
    const part = hoursOf(operations.value.filter((other) => other !== left));
    if (!part.ok) return part;
    least = Math.max(least, part.value);
  }
  if (content.hundredths >= least && content.hundredths <= all.value) return ok(undefined);
  return invalid([
    {
      pointer: '/hundredths',
      detail: `Give from ${least} to ${all.value}: a part of it takes ${least} already, and its steps add up to ${all.value}.`,
    },
  ]);
}

/** Replaces the operations of a package. */
export async function storePackageOperations(
  tx: Tx,
  packageId: string,
  operations: readonly PackageOperationEntry[],
): Promise<void> {
  const key = { shopId: tx.shopId, packageId };
  await tx.em.delete(PackageOperationRow, key);
  await tx.em.insert(
    PackageOperationRow,
    operations.map(({ operationId, positions }, at) => ({
      ...key,
      operationId,
      positions: [...new Set(positions)],
      sequence: at + 1,
    })),
  );
}
