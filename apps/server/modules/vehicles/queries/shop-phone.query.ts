import type { Tx } from '../../../platform/database/tx.js';

/** The shop's own number, for the country that a customer's number is read in. */
export async function shopPhone(tx: Tx): Promise<string | null> {
  const row = await tx.one<{ phone: string | null }>('select phone from shops where shop_id = $1', [
    tx.shopId,
  ]);
  return row?.phone ?? null;
}
