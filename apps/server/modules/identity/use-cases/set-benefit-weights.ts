import type { BenefitWeights } from '#libs/choice';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { ShopRow } from '../data/shop.entity.js';
import type { BenefitWeightsRequest, BenefitWeightsResponse } from '../dto/benefit-weights.js';

/** Holds from now on, drafts included: a revision that was sent keeps the weights that its owner was shown. */
export async function setBenefitWeights(
  tx: Tx,
  version: number | '*',
  request: BenefitWeightsRequest,
): Promise<Result<BenefitWeightsResponse>> {
  const key = { shopId: tx.shopId };
  const row = await tx.em.findOne(ShopRow, { where: key, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const { unsafe, toTheShopOnly, repair, watch, asked, consequence } = request;
  const weights: BenefitWeights = {
    ...{ unsafe, toTheShopOnly, repair, watch, asked },
    consequence: { ...consequence },
  };
  await tx.rows(
    'update shops set benefit_weights = $2, version = version + 1 where shop_id = $1 returning version',
    [tx.shopId, JSON.stringify(weights)],
  );
  await tx.audit('shop.weigh-benefits', 'shop', tx.shopId, { weights });
  return ok({ ...weights, version: row.version + 1 });
}
