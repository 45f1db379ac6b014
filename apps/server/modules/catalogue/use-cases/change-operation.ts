import { fail, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { OperationRow } from '../data/operation.entity.js';
import type { ChangeOperationRequest } from '../dto/operation.request.js';
import type { OperationResponse } from '../dto/operation.response.js';
import { operationById } from '../queries/operations.query.js';
import { checkParts, storeParts } from './operation-parts.js';

/** Lines and work orders that were made from it keep what they copied. */
export async function changeOperation(
  tx: Tx,
  operationId: string,
  version: number | '*',
  request: ChangeOperationRequest,
): Promise<Result<OperationResponse>> {
  const where = { shopId: tx.shopId, id: operationId };
  const row = await tx.em.findOne(OperationRow, { where, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such operation in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const parts = await checkParts(tx, request);
  if (!parts.ok) return parts;
  const { steps, toolIds, ...columns } = definedOnly(request);
  await tx.em.update(OperationRow, where, { ...columns, version: row.version + 1 });
  await storeParts(tx, operationId, { steps, toolIds });
  await tx.audit('operation.change', 'operation', operationId, definedOnly(request));
  return operationById(tx, operationId);
}
