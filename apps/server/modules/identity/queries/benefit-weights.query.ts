import { FIRST_WEIGHTS, type BenefitWeights } from '#libs/choice';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { BenefitWeightsResponse } from '../dto/benefit-weights.js';

interface WeightsRow {
  weights: BenefitWeights | null;
  version: number;
}

async function stored(tx: Tx): Promise<WeightsRow | undefined> {
  return tx.one<WeightsRow>('select benefit_weights as weights, version from shops where shop_id = $1', [
    tx.shopId,
  ]);
}

/** What the shop thinks work is worth, for choosing within a budget; the first weights until it says otherwise. */
export async function benefitWeights(tx: Tx): Promise<BenefitWeights> {
  return (await stored(tx))?.weights ?? FIRST_WEIGHTS;
}

export async function benefitWeightsOfShop(tx: Tx): Promise<Result<BenefitWeightsResponse>> {
  const row = await stored(tx);
  if (!row) return fail('not-found', 'There is no such shop.');
  const { unsafe, toTheShopOnly, repair, watch, asked, consequence } = row.weights ?? FIRST_WEIGHTS;
  return ok({ unsafe, toTheShopOnly, repair, watch, asked, consequence, version: row.version });
}
