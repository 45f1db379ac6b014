import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { SpecialToolRow } from '../data/special-tool.entity.js';
import { specialToolResponse } from '../data/special-tool.mapping.js';
import type { AddSpecialToolRequest } from '../dto/special-tool.request.js';
import type { SpecialToolResponse } from '../dto/special-tool.response.js';

/** A tool of which the shop has few, so that the board can count its units. */
export async function addSpecialTool(
  tx: Tx,
  request: AddSpecialToolRequest,
): Promise<Result<SpecialToolResponse>> {
  const row: SpecialToolRow = {
    shopId: tx.shopId,
    id: tx.newId(),
    name: request.name,
    units: request.units,
    version: 1,
  };
  await tx.em.insert(SpecialToolRow, row);
  await tx.audit('special-tool.add', 'special-tool', row.id, { name: row.name, units: row.units });
  tx.announce('bay', { toolId: row.id });
  return ok(specialToolResponse(row));
}
