import { cents, fail, ok, ppm, type FieldFault, type Result } from '#libs/kernel';
import {
  priceItem,
  type Breakdown,
  type ItemPriceRules,
  type ItemToPrice,
  type PriceRule,
} from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { itemPriceRules } from '../../identity/index.js';
import type { LineItemRequest } from '../dto/line.request.js';

/** An item with the price that its rule gives today, and how it came about: both are kept with the line. */
export interface PricedItemRequest extends LineItemRequest {
  readonly unitPriceCents: number;
  readonly priceRule: PriceRule;
  readonly priceBreakdown: Breakdown;
}

const optional = <T>(value: number | null | undefined, brand: (value: number) => T): T | null =>
  value == null ? null : brand(value);

/** The margin belongs to the item where its rule asks for one; the shop's own is copied, so that it stays. */
function marginOfItem(rule: PriceRule, item: LineItemRequest, rules: ItemPriceRules): number | null {
  return rule === 'margin' ? (item.marginPpm ?? rules.defaultMarginPpm) : null;
}

/** Prices the items of a line by their rules. What cannot be priced is pointed at, each item of the list. */
export async function priceItems(
  tx: Tx,
  items: readonly LineItemRequest[],
): Promise<Result<PricedItemRequest[]>> {
  const rules = await itemPriceRules(tx);
  const fields: FieldFault[] = [];
  const priced: PricedItemRequest[] = [];
  for (const [at, item] of items.entries()) {
    const rule = item.priceRule ?? 'entered';
    const question: ItemToPrice = {
      rule,
      unitPriceCents: optional(item.unitPriceCents, cents),
      unitCostCents: optional(item.unitCostCents, cents),
      listCents: optional(item.listCents, cents),
      marginPpm: optional(item.marginPpm, ppm),
    };
    const price = priceItem(question, rules);
    if (price.ok) {
      const { unitPriceCents, breakdown } = price.value;
      const marginPpm = marginOfItem(rule, item, rules);
      priced.push({ ...item, unitPriceCents, priceRule: rule, marginPpm, priceBreakdown: breakdown });
    } else {
      const own = price.fault.fields ?? [{ pointer: '/priceRule', detail: price.fault.detail }];
      fields.push(...own.map(({ pointer, detail }) => ({ pointer: `/items/${at}${pointer}`, detail })));
    }
  }
  if (fields.length === 0) return ok(priced);
  return fail('request-invalid', `Look at ${fields.map(({ pointer }) => pointer).join(', ')}.`, { fields });
}
