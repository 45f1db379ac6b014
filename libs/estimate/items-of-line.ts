import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import type { EstimateItem, EstimateLine } from './estimate-line.js';
import { MILLION } from './effective-rate.js';
import type { OrderDiscount } from './order-discount.js';
import type { TaxKind } from './pricing-policy.js';
import { roundHalfUp } from './round-half-up.js';
import { splitCents } from './split-cents.js';

export interface PricedItem {
  readonly item: EstimateItem;
  /** Quantity times price. */
  readonly grossCents: Cents;
  /** This item's part of the line's discount, and of a percentage off the items of the order. */
  readonly lineDiscountCents: Cents;
  readonly orderDiscountCents: Cents;
  /** What is left to pay. */
  readonly cents: Cents;
  readonly coreCents: Cents;
}

export interface ItemsOfLine {
  readonly items: readonly PricedItem[];
  /** After discounts. */
  readonly partsCents: Cents;
  readonly coreCents: Cents;
  readonly lineDiscountCents: Cents;
  readonly orderDiscountCents: Cents;
}

/** Fees are passed on as they are. */
export const isDiscountable = ({ kind }: EstimateItem): boolean => kind !== 'fee';

const extended = (quantityHundredths: number, price: Cents): Cents =>
  cents(roundHalfUp(quantityHundredths, price, 100));

/** A percentage of what a line's items cost, and then an amount, never more than they cost. */
function amountOff(whole: number, ratePpm = 0, amount = 0): number {
  const rated = roundHalfUp(whole, ratePpm, MILLION);
  return rated + Math.min(whole - rated, amount);
}

const sum = (amounts: readonly number[]): number => amounts.reduce((total, one) => total + one, 0);

/**
 * The items of a line: each is quantity times price, rounded half up by itself, since each is shown by itself. A
 * discount is rounded once for the line and spread over its parts, fluids and sublet by largest remainder; a percentage
 * off the items of the order comes off what is left. Neither depends on what else is chosen.
 */
export function itemsOfLine(line: EstimateLine, order?: OrderDiscount): ItemsOfLine {
  const gross = line.items.map((item) => extended(item.quantityHundredths, item.unitPriceCents));
  const open = gross.map((price, at) => {
    const item = line.items[at];
    return item !== undefined && isDiscountable(item) ? price : 0;
  });
  const { itemsPpm, itemsCents } = line.discount ?? {};
  const byLine = splitCents(amountOff(sum(open), itemsPpm, itemsCents), open);
  const left = open.map((price, at) => price - (byLine[at] ?? 0));
  const byOrder = splitCents(amountOff(sum(left), order?.itemsPpm), left);
  const items = line.items.map((item, at): PricedItem => {
    const [whole, lineOff, orderOff] = [
      gross[at] ?? cents(0),
      byLine[at] ?? cents(0),
      byOrder[at] ?? cents(0),
    ];
    return {
      item,
      grossCents: whole,
      lineDiscountCents: lineOff,
      orderDiscountCents: orderOff,
      cents: cents(whole - lineOff - orderOff),
      coreCents: item.coreCents ? extended(item.quantityHundredths, item.coreCents) : cents(0),
    };
  });
  return {
    items,
    partsCents: cents(sum(items.map((priced) => priced.cents))),
    coreCents: cents(sum(items.map((priced) => priced.coreCents))),
    lineDiscountCents: cents(sum(byLine)),
    orderDiscountCents: cents(sum(byOrder)),
  };
}

/** What of a line's items a tax falls on. */
export function taxableItems({ items }: ItemsOfLine, on: readonly TaxKind[]): number {
  return items.reduce((total, { item, cents: price, coreCents }) => {
    return total + (on.includes(item.kind) ? price : 0) + (on.includes('part') ? coreCents : 0);
  }, 0);
}
