import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { TabletPeopleResponse } from '../dto/device.response.js';

/** Whoever can sign in on a tablet: active, with a PIN, and more than an administrator. Names and nothing else. */
export async function tabletPeople(tx: Tx): Promise<Result<TabletPeopleResponse>> {
  const items = await tx.rows<{ id: string; displayName: string }>(
    `select id, display_name as "displayName" from staff
      where shop_id = $1 and is_active and pin_hash is not null and roles <> array['administrator']
      order by lower(display_name), id`,
    [tx.shopId],
  );
  return ok({ items });
}
