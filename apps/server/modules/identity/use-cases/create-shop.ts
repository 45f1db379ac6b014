import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { ShopRow } from '../data/shop.entity.js';
import { shopResponse } from '../data/shop.mapping.js';
import type { ShopResponse } from '../dto/shop.response.js';
import { shopFaults } from './shop-faults.js';

export interface NewShop {
  /** Short name in addresses and at sign-in: small letters, digits, hyphens; unique on this server. */
  readonly slug: string;
  readonly name: string;
  readonly timeZone: string;
  readonly currency: string;
  readonly phone?: string | null;
  readonly address?: string | null;
  readonly jurisdiction?: string | null;
  readonly dayStartsMinute?: number;
  readonly dayEndsMinute?: number;
  readonly taxRounding?: 'line' | 'invoice';
  readonly suppliesRatePpm?: number;
  readonly suppliesFloorCents?: number;
  readonly suppliesCapCents?: number | null;
  readonly linkValidHours?: number;
  readonly commonSpreadPpm?: number;
  readonly isDemo?: boolean;
}

const USUAL = {
  phone: null,
  address: null,
  jurisdiction: null,
  dayStartsMinute: 7 * 60,
  dayEndsMinute: 18 * 60,
  taxRounding: 'invoice',
  suppliesRatePpm: 0,
  suppliesFloorCents: 0,
  suppliesCapCents: null,
  priceMatrix: null,
  defaultMarginPpm: null,
  subletMarkupPpm: 0,
  suppliesBase: 'labour',
  taxesCombined: false,
  linkValidHours: 7 * 24,
  // What a shop starts from, by common sense: one car's hours stray a tenth from another's.
  commonSpreadPpm: 100_000,
  // Long enough to end the call, short enough that a forgotten one is in nobody's way.
  holdMinutes: 15,
  isDemo: false,
};

/** A new tenant. The transaction's shop is the new one: run it with a system context whose `shopId` is a new id. */
export async function createShop(tx: Tx, shop: NewShop): Promise<Result<ShopResponse>> {
  const row = tx.em.create(ShopRow, {
    ...USUAL,
    ...shop,
    shopId: tx.shopId,
    version: 1,
    createdAt: tx.now,
  });
  const fields = shopFaults(row);
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(shop.slug))
    fields.push({ pointer: '/slug', detail: 'Small letters, digits and single hyphens.' });
  if (fields.length > 0) return fail('request-invalid', 'Look at the settings of the shop.', { fields });
  await tx.em.insert(ShopRow, row);
  await tx.audit('shop.create', 'shop', tx.shopId, { slug: shop.slug });
  return ok(shopResponse(row));
}
