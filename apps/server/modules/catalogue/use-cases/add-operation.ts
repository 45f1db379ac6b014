import type { Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { OperationRow } from '../data/operation.entity.js';
import type { AddOperationRequest } from '../dto/operation.request.js';
import type { OperationResponse } from '../dto/operation.response.js';
import { operationById } from '../queries/operations.query.js';
import { checkParts, storeParts } from './operation-parts.js';

/** A unit of labour in the shop's own catalogue, made of steps that it may share with others. */
export async function addOperation(tx: Tx, request: AddOperationRequest): Promise<Result<OperationResponse>> {
  const parts = await checkParts(tx, request);
  if (!parts.ok) return parts;
  const row: OperationRow = {
    shopId: tx.shopId,
    id: tx.newId(),
    code: request.code,
    name: request.name,
    needsLift: request.needsLift,
    bayKinds: [...new Set(request.bayKinds)],
    skills: [...new Set(request.skills)],
    cautions: [...new Set(request.cautions)],
    isActive: true,
    version: 1,
  };
  await tx.em.insert(OperationRow, row);
  await storeParts(tx, row.id, request);
  await tx.audit('operation.add', 'operation', row.id, { code: row.code });
  return operationById(tx, row.id);
}
