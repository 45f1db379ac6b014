import type { Tx } from '../../../platform/database/tx.js';

/** The IANA zone in which the shop reads its clock. */
export async function timeZoneOf(tx: Tx): Promise<string> {
  const row = await tx.one<{ timeZone: string }>(
    'select time_zone as "timeZone" from shops where shop_id = $1',
    [tx.shopId],
  );
  if (!row) throw new Error('the shop of a signed-in person exists');
  return row.timeZone;
}
