import { SUPPLIES_BASES, type PricingPolicy } from '#libs/estimate';
import { cents, fail, ok, ppm, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { ShopRow } from '../data/shop.entity.js';
import { shopResponse } from '../data/shop.mapping.js';
import { isTaxable } from '../data/tax.mapping.js';
import { TaxRow } from '../data/tax.entity.js';
import type { ShopResponse } from '../dto/shop.response.js';

export async function shop(tx: Tx): Promise<Result<ShopResponse>> {
  const row = await tx.em.findOneBy(ShopRow, { shopId: tx.shopId });
  return row ? ok(shopResponse(row)) : fail('not-found', 'There is no such shop.');
}

/** What the other modules ask about the shop: its zone and day, and how it prices. */
export interface ShopSettings extends ShopResponse {
  readonly pricing: PricingPolicy;
}

export async function shopSettings(tx: Tx): Promise<Result<ShopSettings>> {
  const row = await tx.em.findOneBy(ShopRow, { shopId: tx.shopId });
  if (!row) return fail('not-found', 'There is no such shop.');
  const settings = shopResponse(row);
  const taxes = await tx.em.find(TaxRow, { where: { shopId: tx.shopId }, order: { name: 'ASC', id: 'ASC' } });
  return ok({
    ...settings,
    pricing: {
      taxes: taxes.map((tax) => ({
        name: tax.name,
        ratePpm: ppm(tax.ratePpm),
        on: tax.appliesTo.filter(isTaxable),
      })),
      taxRounding: settings.taxRounding === 'line' ? 'line' : 'invoice',
      ...(row.taxesCombined ? { taxesCombined: true } : {}),
      supplies: suppliesOf(row),
    },
  });
}

function suppliesOf(settings: ShopRow): PricingPolicy['supplies'] {
  if (settings.suppliesRatePpm === 0 && settings.suppliesFloorCents === 0) return null;
  return {
    ratePpm: ppm(settings.suppliesRatePpm),
    floorCents: cents(settings.suppliesFloorCents),
    capCents: settings.suppliesCapCents === null ? null : cents(settings.suppliesCapCents),
    base: SUPPLIES_BASES.find((base) => base === settings.suppliesBase) ?? 'labour',
  };
}
