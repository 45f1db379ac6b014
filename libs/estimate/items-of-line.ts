import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { extend } from '#libs/money';
import type { EstimateItem, EstimateLine } from './estimate-line.js';
import type { TaxKind } from './pricing-policy.js';

export interface PricedItem {
  readonly item: EstimateItem;
  readonly cents: Cents;
  readonly coreCents: Cents;
}

export interface ItemsOfLine {
  readonly items: readonly PricedItem[];
  readonly partsCents: Cents;
  readonly coreCents: Cents;
}

/** The items of a line: each is quantity times price, rounded half up by itself, since each is shown by itself. */
export function itemsOfLine(line: EstimateLine): ItemsOfLine {
  const items = line.items.map((item) => ({
    item,
    cents: extend(item.quantityHundredths, item.unitPriceCents),
    coreCents: extend(item.quantityHundredths, item.coreCents ?? cents(0)),
  }));
  return {
    items,
    partsCents: cents(items.reduce((sum, priced) => sum + priced.cents, 0)),
    coreCents: cents(items.reduce((sum, priced) => sum + priced.coreCents, 0)),
  };
}

/** What of a line's items a tax falls on. */
export function taxableItems({ items }: ItemsOfLine, on: readonly TaxKind[]): number {
  return items.reduce((sum, { item, cents: price, coreCents }) => {
    return sum + (on.includes(item.kind) ? price : 0) + (on.includes('part') ? coreCents : 0);
  }, 0);
}
