import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { BayRow } from '../data/bay.entity.js';
import { bayResponse } from '../data/bay.mapping.js';
import type { ChangeBayRequest } from '../dto/bay.request.js';
import type { BayResponse } from '../dto/bay.response.js';

export async function changeBay(
  tx: Tx,
  bayId: string,
  version: number | '*',
  request: ChangeBayRequest,
): Promise<Result<BayResponse>> {
  const row = await tx.em.findOne(BayRow, {
    where: { shopId: tx.shopId, id: bayId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!row) return fail('not-found', 'There is no such bay in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const changed = { ...definedOnly(request), version: row.version + 1 };
  await tx.em.update(BayRow, { shopId: tx.shopId, id: bayId }, changed);
  await tx.audit('bay.change', 'bay', bayId, definedOnly(request));
  tx.announce('bay', { bayId });
  return ok(bayResponse({ ...row, ...changed }));
}
