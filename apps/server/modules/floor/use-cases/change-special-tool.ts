import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { SpecialToolRow } from '../data/special-tool.entity.js';
import { specialToolResponse } from '../data/special-tool.mapping.js';
import type { ChangeSpecialToolRequest } from '../dto/special-tool.request.js';
import type { SpecialToolResponse } from '../dto/special-tool.response.js';

/** Fewer units than are planned leave the plan as it is: the assignments show which of them now want a place. */
export async function changeSpecialTool(
  tx: Tx,
  toolId: string,
  version: number | '*',
  request: ChangeSpecialToolRequest,
): Promise<Result<SpecialToolResponse>> {
  const row = await tx.em.findOne(SpecialToolRow, {
    where: { shopId: tx.shopId, id: toolId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!row) return fail('not-found', 'There is no such special tool in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const changed = { ...definedOnly(request), version: row.version + 1 };
  await tx.em.update(SpecialToolRow, { shopId: tx.shopId, id: toolId }, changed);
  await tx.audit('special-tool.change', 'special-tool', toolId, definedOnly(request));
  tx.announce('bay', { toolId });
  return ok(specialToolResponse({ ...row, ...changed }));
}
