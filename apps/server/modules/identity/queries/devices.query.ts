import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { DeviceRow } from '../data/device.entity.js';
import { deviceResponse } from '../data/device.mapping.js';
import type { DevicesResponse } from '../dto/device.response.js';

/** Newest first, revoked ones too: who enrolled what stays visible. */
export async function allDevices(tx: Tx): Promise<Result<DevicesResponse>> {
  const rows = await tx.em.find(DeviceRow, { where: { shopId: tx.shopId }, order: { id: 'DESC' } });
  return ok({ items: rows.map(deviceResponse) });
}

/** The enrolled tablet that holds this token. */
export async function deviceByToken(tx: Tx, tokenHash: string): Promise<Result<string | undefined>> {
  const device = await tx.one<{ id: string }>(
    'select id from devices where shop_id = $1 and token_hash = $2 and revoked_at is null',
    [tx.shopId, tokenHash],
  );
  return ok(device?.id);
}
