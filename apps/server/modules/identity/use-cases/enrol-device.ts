import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { DeviceRow } from '../data/device.entity.js';
import { deviceResponse } from '../data/device.mapping.js';
import type { DeviceResponse } from '../dto/device.response.js';
import { tokenHash } from '../sign-in/opaque-token.js';

interface NewDevice {
  readonly name: string;
  readonly bayId?: string | null;
}

/** A tablet from which people may sign in with their PIN. The token itself is told to whoever enrols it, once. */
export async function enrolDevice(
  tx: Tx,
  device: NewDevice,
  tokenOf: (deviceId: string) => string,
): Promise<Result<DeviceResponse>> {
  const bayId = device.bayId ?? null;
  if (bayId !== null && !(await bayExists(tx, bayId)))
    return fail('not-found', 'There is no such bay in this shop.');
  const id = tx.newId();
  const row = tx.em.create(DeviceRow, {
    shopId: tx.shopId,
    id,
    name: device.name,
    bayId,
    tokenHash: tokenHash(tokenOf(id)),
    enrolledBy: tx.staffId,
    enrolledAt: tx.now,
    revokedAt: null,
  });
  await tx.em.insert(DeviceRow, row);
  await tx.audit('device.enrol', 'device', id, { name: row.name });
  return ok(deviceResponse(row));
}

async function bayExists(tx: Tx, bayId: string): Promise<boolean> {
  return (
    (await tx.one('select 1 from bays where shop_id = $1 and id = $2', [tx.shopId, bayId])) !== undefined
  );
}
