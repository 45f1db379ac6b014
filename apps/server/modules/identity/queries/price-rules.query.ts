import { fail, ok, ppm, type Result } from '#libs/kernel';
import { matrixWarnings } from '#libs/money';
import type { ItemPriceRules, SuppliesBase } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import type { PriceRulesResponse } from '../dto/price-rules.js';

interface PriceRulesRow {
  matrix: ItemPriceRules['matrix'];
  defaultMarginPpm: number | null;
  subletMarkupPpm: number;
  suppliesBase: SuppliesBase;
  taxesCombined: boolean;
  version: number;
}

async function stored(tx: Tx): Promise<PriceRulesRow | undefined> {
  return tx.one<PriceRulesRow>(
    `select price_matrix as matrix, default_margin_ppm as "defaultMarginPpm", sublet_markup_ppm as "subletMarkupPpm",
        supplies_base as "suppliesBase", taxes_combined as "taxesCombined", version from shops where shop_id = $1`,
    [tx.shopId],
  );
}

/** How the prices of items follow from their costs, from now on. */
export async function itemPriceRules(tx: Tx): Promise<ItemPriceRules> {
  const row = await stored(tx);
  return {
    matrix: row?.matrix ?? null,
    defaultMarginPpm: row?.defaultMarginPpm == null ? null : ppm(row.defaultMarginPpm),
    subletMarkupPpm: ppm(row?.subletMarkupPpm ?? 0),
  };
}

export async function priceRulesOfShop(tx: Tx): Promise<Result<PriceRulesResponse>> {
  const row = await stored(tx);
  if (!row) return fail('not-found', 'There is no such shop.');
  const { matrix } = row;
  return ok({
    matrix:
      matrix === null
        ? null
        : {
            method: matrix.method,
            bands: matrix.bands.map(({ fromCents, multiplierPpm }) => ({ fromCents, multiplierPpm })),
          },
    defaultMarginPpm: row.defaultMarginPpm,
    subletMarkupPpm: row.subletMarkupPpm,
    suppliesBase: row.suppliesBase,
    taxesCombined: row.taxesCombined,
    warnings: (matrix === null ? [] : matrixWarnings(matrix.bands, matrix.method)).map(
      ({ code, detail, fromCents, inversion }) => ({
        code,
        detail,
        fromCents,
        toCents: inversion?.toCents ?? null,
        dropCents: inversion?.dropCents ?? null,
      }),
    ),
    version: row.version,
  });
}
