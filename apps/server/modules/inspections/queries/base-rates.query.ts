import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { BaseRateBody, BaseRatesResponse } from '../dto/base-rates.js';

/** The shop's own base rates, in its order. */
export async function baseRates(tx: Tx): Promise<Result<BaseRatesResponse>> {
  const shop = await tx.one<{ version: number }>('select version from shops where shop_id = $1', [tx.shopId]);
  if (!shop) return fail('not-found', 'There is no such shop.');
  const items = await tx.rows<BaseRateBody>(
    `select b.component, b.from_years as "fromYears", b.to_years as "toYears", b.chance_ppm as "chancePpm",
        b.low_cents as "lowCents", b.likely_cents as "likelyCents", b.high_cents as "highCents"
       from base_rates b where b.shop_id = $1 order by b.sequence`,
    [tx.shopId],
  );
  return ok({ items, version: shop.version });
}
