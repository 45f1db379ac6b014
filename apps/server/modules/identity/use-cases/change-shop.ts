import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { ShopRow } from '../data/shop.entity.js';
import { shopResponse } from '../data/shop.mapping.js';
import type { ChangeShopRequest } from '../dto/shop.request.js';
import type { ShopResponse } from '../dto/shop.response.js';
import { shopFaults } from './shop-faults.js';

/** Holds from now on: a revision that was sent keeps the settings it was frozen with. */
export async function changeShop(
  tx: Tx,
  version: number | '*',
  request: ChangeShopRequest,
): Promise<Result<ShopResponse>> {
  const key = { shopId: tx.shopId };
  const row = await tx.em.findOne(ShopRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const changed = { ...definedOnly(request), version: row.version + 1 };
  const after: ShopRow = { ...row, ...changed };
  const fields = shopFaults(after);
  if (fields.length > 0)
    return fail('request-invalid', `Look at ${fields.map((f) => f.pointer).join(', ')}.`, { fields });
  await tx.em.update(ShopRow, key, changed);
  await tx.audit('shop.change', 'shop', tx.shopId, definedOnly(request));
  return ok(shopResponse(after));
}
