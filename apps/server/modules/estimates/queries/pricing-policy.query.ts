import { cents, ppm } from '#libs/kernel';
import type { PricingPolicy, SuppliesBase, TaxKind } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';

interface PolicyRow {
  taxRounding: 'line' | 'invoice';
  suppliesRatePpm: number;
  suppliesFloorCents: number;
  suppliesCapCents: number | null;
  suppliesBase: SuppliesBase;
  taxesCombined: boolean;
  taxes: { name: string; ratePpm: number; appliesTo: TaxKind[] }[];
}

/** How the shop prices today. A sent revision carries its own. */
export async function pricingPolicy(tx: Tx): Promise<PricingPolicy> {
  const row = await tx.one<PolicyRow>(
    `select s.tax_rounding as "taxRounding", s.supplies_rate_ppm as "suppliesRatePpm",
        s.supplies_floor_cents as "suppliesFloorCents", s.supplies_cap_cents as "suppliesCapCents",
        s.supplies_base as "suppliesBase", s.taxes_combined as "taxesCombined",
        (select coalesce(json_agg(json_build_object('name', t.name, 'ratePpm', t.rate_ppm, 'appliesTo', t.applies_to)
                 order by t.name), '[]') from taxes t where t.shop_id = s.shop_id) as taxes
       from shops s where s.shop_id = $1`,
    [tx.shopId],
  );
  if (!row) throw new Error('the shop of a signed-in person exists');
  const { suppliesRatePpm, suppliesFloorCents, suppliesCapCents, suppliesBase, taxesCombined } = row;
  return {
    taxRounding: row.taxRounding,
    // What is usual is left unsaid, so that a document says only what departs from it.
    ...(taxesCombined ? { taxesCombined } : {}),
    taxes: row.taxes.map(({ name, ratePpm, appliesTo }) => ({ name, ratePpm: ppm(ratePpm), on: appliesTo })),
    supplies:
      suppliesRatePpm === 0 && suppliesFloorCents === 0
        ? null
        : {
            ratePpm: ppm(suppliesRatePpm),
            floorCents: cents(suppliesFloorCents),
            capCents: suppliesCapCents === null ? null : cents(suppliesCapCents),
            ...(suppliesBase === 'labour' ? {} : { base: suppliesBase }),
          },
  };
}
