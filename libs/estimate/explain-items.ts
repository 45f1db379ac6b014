import { cents, ppm } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { formatCents } from '#libs/money';
import { SUM } from './breakdown.js';
import type { Breakdown } from './breakdown.js';
import type { EstimateLine } from './estimate-line.js';
import { explainAmountOff, sumOf } from './explain.js';
import { isDiscountable } from './items-of-line.js';
import type { ItemsOfLine, PricedItem } from './items-of-line.js';
import { percentText, quantityText } from './plain-text.js';
import type { PricingTerms } from './prepare-estimate.js';
import type { PricedLine } from './price-set.js';

const times = (item: PricedItem['item'], price: Cents): string =>
  `${quantityText(item.quantityHundredths)} × ${formatCents(price)}, rounded half up`;

const total = (items: readonly PricedItem[], amount: (item: PricedItem) => number): number =>
  items.reduce((sum, item) => sum + amount(item), 0);

const SPREAD = 'spread over them by largest remainder; this is the share of this item';

/** What the line's own discount takes off an item. */
function lineDiscount(
  priced: PricedItem,
  { discount }: EstimateLine,
  { items, lineDiscountCents }: ItemsOfLine,
): Breakdown[] {
  if (priced.lineDiscountCents === 0 || discount == null) return [];
  const gross = cents(
    total(
      items.filter(({ item }) => isDiscountable(item)),
      (one) => one.grossCents,
    ),
  );
  const { itemsPpm = ppm(0), itemsCents = 0 } = discount;
  const terms = [
    itemsPpm > 0 ? percentText(itemsPpm) : '',
    itemsCents > 0 ? formatCents(cents(itemsCents)) : '',
  ].filter((text) => text !== '');
  return [
    {
      figure: 'discount',
      of: discount.reason,
      cents: cents(0 - priced.lineDiscountCents),
      rule: `${terms.join(' and then ')} off the line's parts, fluids and sublet of ${formatCents(gross)}, in all ${formatCents(lineDiscountCents)}, ${SPREAD}`,
      inputs: [],
    },
  ];
}

/** What a percentage off the items of the order takes off an item. */
function orderDiscount(
  priced: PricedItem,
  items: ItemsOfLine,
  { orderDiscount: order }: PricingTerms,
): Breakdown[] {
  if (priced.orderDiscountCents === 0 || order === undefined) return [];
  const open = items.items.filter(({ item }) => isDiscountable(item));
  const left = cents(total(open, (one) => one.grossCents - one.lineDiscountCents));
  return [
    {
      figure: 'order discount',
      ...(order.reason === undefined ? {} : { of: order.reason }),
      cents: cents(0 - priced.orderDiscountCents),
      rule: `${percentText(order.itemsPpm ?? ppm(0))} off the line's parts, fluids and sublet of ${formatCents(left)}, in all ${formatCents(items.orderDiscountCents)}, ${SPREAD}`,
      inputs: [],
    },
  ];
}

function explainItem(
  priced: PricedItem,
  line: EstimateLine,
  items: ItemsOfLine,
  terms: PricingTerms,
): Breakdown {
  const { item } = priced;
  const rule = times(item, item.unitPriceCents);
  const off = [...lineDiscount(priced, line, items), ...orderDiscount(priced, items, terms)];
  const node = { figure: item.kind, of: item.id, cents: priced.cents };
  if (off.length === 0) return { ...node, rule, inputs: [] };
  const price: Breakdown = { figure: 'price', cents: priced.grossCents, rule, inputs: [] };
  return { ...node, rule: SUM, inputs: [price, ...off] };
}

export function explainItems(lines: readonly PricedLine[], terms: PricingTerms): Breakdown {
  return sumOf('parts', [
    ...lines.flatMap(({ items, prepared }) =>
      items.items.map((priced) => explainItem(priced, prepared.line, items, terms)),
    ),
    ...explainAmountOff('parts', lines, terms),
  ]);
}

export function explainCores(lines: readonly PricedLine[]): Breakdown {
  const priced = lines.flatMap(({ items }) => items.items).filter(({ coreCents }) => coreCents !== 0);
  return sumOf(
    'core deposits',
    priced.map(({ item, coreCents }) => ({
      figure: 'core deposit',
      of: item.id,
      cents: coreCents,
      rule: `${times(item, item.coreCents ?? cents(0))}; paid back when the old part is returned`,
      inputs: [],
    })),
  );
}
