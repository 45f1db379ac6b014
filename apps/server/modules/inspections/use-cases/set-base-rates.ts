import { fail, type FieldFault, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { BaseRateRow } from '../data/base-rate.entity.js';
import type { BaseRateBody, BaseRatesRequest, BaseRatesResponse } from '../dto/base-rates.js';
import { baseRates } from '../queries/base-rates.query.js';

const from = ({ fromYears }: BaseRateBody): number => fromYears ?? 0;
const to = ({ toYears }: BaseRateBody): number => toYears ?? Infinity;

/** A component has at most one rate at any age. */
function overlaps(one: BaseRateBody, other: BaseRateBody): boolean {
  const isSame = one.component.toLowerCase() === other.component.toLowerCase();
  return isSame && from(one) <= to(other) && from(other) <= to(one);
}

function rateFaults(items: readonly BaseRateBody[]): FieldFault[] {
  return items.flatMap((rate, at) => {
    const faults: FieldFault[] = [];
    const note = (field: string, detail: string): void => {
      faults.push({ pointer: `/items/${at}/${field}`, detail });
    };
    if (rate.likelyCents < rate.lowCents) note('likelyCents', 'Not below the least.');
    if (rate.highCents < rate.likelyCents) note('highCents', 'Not below what it mostly comes to.');
    if (to(rate) < from(rate)) note('toYears', 'Not before it begins.');
    const before = items.slice(0, at).findIndex((other) => overlaps(rate, other));
    if (before >= 0) note('component', `Entry ${before + 1} holds for the same component at the same age.`);
    return faults;
  });
}

/** Holds from now on, drafts included: a revision that was sent keeps the rates it was sent with. */
export async function setBaseRates(
  tx: Tx,
  version: number | '*',
  { items }: BaseRatesRequest,
): Promise<Result<BaseRatesResponse>> {
  const fields = rateFaults(items);
  if (fields.length > 0)
    return fail('request-invalid', `Look at ${fields.map(({ pointer }) => pointer).join(', ')}.`, { fields });
  const shop = await tx.one<{ version: number }>('select version from shops where shop_id = $1 for update', [
    tx.shopId,
  ]);
  if (!shop) return fail('not-found', 'There is no such shop.');
  const current = checkVersion(version, shop.version);
  if (!current.ok) return current;
  await tx.em.delete(BaseRateRow, { shopId: tx.shopId });
  if (items.length > 0)
    await tx.em.insert(
      BaseRateRow,
      items.map((rate, at) => ({
        shopId: tx.shopId,
        id: tx.newId(),
        sequence: at + 1,
        component: rate.component,
        fromYears: rate.fromYears ?? null,
        toYears: rate.toYears ?? null,
        chancePpm: rate.chancePpm,
        lowCents: rate.lowCents,
        likelyCents: rate.likelyCents,
        highCents: rate.highCents,
      })),
    );
  await tx.rows('update shops set version = version + 1 where shop_id = $1 returning version', [tx.shopId]);
  await tx.audit('shop.set-base-rates', 'shop', tx.shopId, { count: items.length });
  return baseRates(tx);
}
