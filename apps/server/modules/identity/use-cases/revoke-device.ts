import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { DeviceRow } from '../data/device.entity.js';
import { endSessions } from './end-sessions.js';

/** A tablet that is lost, sold or broken. Revoking it twice is harmless; it is never enrolled again under its old token. */
export async function revokeDevice(tx: Tx, deviceId: string): Promise<Result<void>> {
  const key = { shopId: tx.shopId, id: deviceId };
  const row = await tx.em.findOne(DeviceRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such tablet in this shop.');
  if (row.revokedAt !== null) return ok(undefined);
  await tx.em.update(DeviceRow, key, { revokedAt: tx.now });
  await endSessions(tx, { deviceId }, 'device-revoked');
  await tx.audit('device.revoke', 'device', deviceId, { name: row.name });
  return ok(undefined);
}
