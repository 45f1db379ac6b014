import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';

export interface PinCandidate {
  readonly pinHash: string;
  readonly pinLockedUntil: Date | null;
}

export async function pinCandidate(tx: Tx, staffId: string): Promise<Result<PinCandidate | undefined>> {
  return ok(
    await tx.one<PinCandidate>(
      `select pin_hash as "pinHash", pin_locked_until as "pinLockedUntil" from staff
        where shop_id = $1 and id = $2 and is_active and pin_hash is not null and roles <> array['administrator']`,
      [tx.shopId, staffId],
    ),
  );
}
