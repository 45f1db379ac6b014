import { cents, fail, ok, ppm, type Result } from '#libs/kernel';
import { checkBands } from '#libs/money';
import type { ItemPriceRules } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { ShopRow } from '../data/shop.entity.js';
import type { PriceRulesRequest, PriceRulesResponse } from '../dto/price-rules.js';
import { priceRulesOfShop } from '../queries/price-rules.query.js';

function matrixFrom({ matrix }: PriceRulesRequest): Result<ItemPriceRules['matrix']> {
  if (matrix === null) return ok(null);
  const bands = matrix.bands.map(({ fromCents, multiplierPpm }) => ({
    fromCents: cents(fromCents),
    multiplierPpm: ppm(multiplierPpm),
  }));
  const checked = checkBands(bands);
  if (checked.ok) return ok({ method: matrix.method, bands });
  const fields = (checked.fault.fields ?? []).map(({ pointer, detail }) => ({
    pointer: `/matrix${pointer}`,
    detail,
  }));
  return fail('request-invalid', checked.fault.detail, { fields });
}

/** Holds for items that are saved from now on; what a line was priced by stays with the line. Warnings refuse nothing. */
export async function setPriceRules(
  tx: Tx,
  version: number | '*',
  request: PriceRulesRequest,
): Promise<Result<PriceRulesResponse>> {
  const key = { shopId: tx.shopId };
  const row = await tx.em.findOne(ShopRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const matrix = matrixFrom(request);
  if (!matrix.ok) return matrix;
  const { defaultMarginPpm, subletMarkupPpm, suppliesBase, taxesCombined } = request;
  await tx.rows(
    `update shops set price_matrix = $2, default_margin_ppm = $3, sublet_markup_ppm = $4, supplies_base = $5,
        taxes_combined = $6, version = version + 1 where shop_id = $1 returning version`,
    [
      tx.shopId,
      matrix.value === null ? null : JSON.stringify(matrix.value),
      defaultMarginPpm,
      subletMarkupPpm,
      suppliesBase,
      taxesCombined,
    ],
  );
  await tx.audit('shop.price-rules', 'shop', tx.shopId, { rules: request });
  return priceRulesOfShop(tx);
}
