import { cents, fail, ok } from '#libs/kernel';
import type { Cents, Fault, Ppm, Result } from '#libs/kernel';
import {
  bandShares,
  formatCents,
  largestRemainder,
  marginOf,
  markUp,
  matrixPrice,
  priceForMargin,
} from '#libs/money';
import type { MatrixMethod, PriceBand } from '#libs/money';
import type { Breakdown } from './breakdown.js';
import { percentText, timesText } from './plain-text.js';

/** How the price of one unit of an item is found: `entered` is typed in, the others follow from its list price or cost. */
export const PRICE_RULES = ['entered', 'list', 'matrix', 'margin', 'sublet-markup'] as const;
export type PriceRule = (typeof PRICE_RULES)[number];

export interface ItemToPrice {
  readonly rule: PriceRule;
  /** For `entered`; the other rules pay no heed to it. */
  readonly unitPriceCents?: Cents | null;
  /** What the shop pays for one unit. */
  readonly unitCostCents?: Cents | null;
  readonly listCents?: Cents | null;
  /** The wanted margin, a part of the price; the shop's own where it is not said. */
  readonly marginPpm?: Ppm | null;
}

/** How a shop finds prices from costs. */
export interface ItemPriceRules {
  readonly matrix: { readonly method: MatrixMethod; readonly bands: readonly PriceBand[] } | null;
  readonly defaultMarginPpm: Ppm | null;
  readonly subletMarkupPpm: Ppm;
}

export interface ItemPrice {
  readonly unitPriceCents: Cents;
  /** What the price leaves after the cost, as a part of the price; null without a cost, or where the price is nothing. */
  readonly marginPpm: Ppm | null;
  readonly breakdown: Breakdown;
}

/**
 * `…-missing`: the figure that the rule needs is not there; the fault points at the item's field, or for
 * `matrix-missing` at its rule, since the remedy is the shop's. `margin-invalid`, `matrix-invalid`: it is there and
 * gives no price. `figure-invalid`: it is not a whole number of cents from zero up.
 */
export type ItemPriceFault = Fault<
  | 'price-missing'
  | 'cost-missing'
  | 'list-missing'
  | 'margin-missing'
  | 'matrix-missing'
  | 'margin-invalid'
  | 'matrix-invalid'
  | 'figure-invalid'
>;

type Priced = Result<{ readonly price: Cents; readonly breakdown: Breakdown }, ItemPriceFault>;

/** Beyond this an amount is a slip of the keyboard. */
const LARGEST = 100_000_000;
const AMOUNTS = ['unitPriceCents', 'unitCostCents', 'listCents'] as const;

const refuse = <C extends ItemPriceFault['code']>(code: C, field: string, detail: string) =>
  fail(code, detail, { fields: [{ pointer: `/${field}`, detail }] });

const entry = (figure: string, amount: Cents): Breakdown => ({
  figure,
  cents: amount,
  rule: 'as entered',
  inputs: [],
});

const priced = (price: Cents, rule: string, inputs: readonly Breakdown[]): Priced =>
  ok({ price, breakdown: { figure: 'unit price', cents: price, rule, inputs } });

/** Every rule that starts from what the shop pays. */
function fromCost({ unitCostCents }: ItemToPrice, price: (cost: Cents) => Priced): Priced {
  return unitCostCents == null
    ? refuse('cost-missing', 'unitCostCents', 'Enter what the shop pays for one: the price follows from it.')
    : price(unitCostCents);
}

function byMatrix(cost: Cents, { method, bands }: NonNullable<ItemPriceRules['matrix']>): Priced {
  const price = matrixPrice(bands, method, cost);
  if (!price.ok) return price;
  const shares = bandShares(bands, method, cost);
  const parts = largestRemainder(
    BigInt(price.value),
    shares.map(({ exactPpm }) => exactPpm),
  );
  const text =
    method === 'marginal'
      ? 'price matrix: each part of the cost times the multiplier of its band, added up and rounded half up once'
      : 'price matrix: the cost times the multiplier of the band that it lies in, rounded half up';
  const explained = shares.map(({ band, costCents }, at): Breakdown => ({
    figure: 'band',
    of: `from ${formatCents(band.fromCents)}`,
    cents: cents(Number(parts[at] ?? 0n)),
    rule: `${formatCents(costCents)} × ${timesText(band.multiplierPpm)}`,
    inputs: [],
  }));
  return priced(price.value, text, [entry('cost', cost), ...explained]);
}

function byMargin(cost: Cents, margin: Ppm): Priced {
  const price = priceForMargin(cost, margin);
  if (!price.ok) return refuse('margin-invalid', 'marginPpm', price.fault.detail);
  const part = percentText(margin);
  return priced(
    price.value,
    `the cost divided by what a margin of ${part} leaves of the price, rounded half up`,
    [entry('cost', cost)],
  );
}

const RULES: Readonly<Record<PriceRule, (item: ItemToPrice, shop: ItemPriceRules) => Priced>> = {
  entered: ({ unitPriceCents }) =>
    unitPriceCents == null
      ? refuse('price-missing', 'unitPriceCents', 'Enter the price of one, or name a rule that finds it.')
      : priced(unitPriceCents, 'as entered', []),
  list: ({ listCents }) =>
    listCents == null
      ? refuse('list-missing', 'listCents', 'Enter the list price of one: the item is sold at it.')
      : priced(listCents, 'the list price', [entry('list price', listCents)]),
  matrix: (item, { matrix }) =>
    matrix === null
      ? refuse(
          'matrix-missing',
          'priceRule',
          'The shop has no price matrix: enter one in its price rules, or name another rule.',
        )
      : fromCost(item, (cost) => byMatrix(cost, matrix)),
  margin: (item, { defaultMarginPpm }) => {
    const margin = item.marginPpm ?? defaultMarginPpm;
    return margin === null
      ? refuse(
          'margin-missing',
          'marginPpm',
          'Enter the margin that is wanted: the shop has no usual one in its price rules.',
        )
      : fromCost(item, (cost) => byMargin(cost, margin));
  },
  'sublet-markup': (item, { subletMarkupPpm }) =>
    fromCost(item, (cost) =>
      priced(
        markUp(cost, subletMarkupPpm),
        `the cost and ${percentText(subletMarkupPpm)} of it, rounded half up`,
        [entry('cost', cost)],
      ),
    ),
};

/** The price of one unit of an item by its rule and the shop's, with how it came about. */
export function priceItem(item: ItemToPrice, shop: ItemPriceRules): Result<ItemPrice, ItemPriceFault> {
  for (const field of AMOUNTS) {
    const amount = item[field];
    if (amount != null && !(Number.isSafeInteger(amount) && amount >= 0 && amount <= LARGEST)) {
      return refuse('figure-invalid', field, `This must be a whole number of cents from 0 to ${LARGEST}.`);
    }
  }
  const found = RULES[item.rule](item, shop);
  if (!found.ok) return found;
  const { price, breakdown } = found.value;
  if (price > LARGEST) {
    return refuse(
      'figure-invalid',
      'unitCostCents',
      `The price comes to more than ${formatCents(cents(LARGEST))}: check the cost and the rule.`,
    );
  }
  const marginPpm = item.unitCostCents == null ? null : marginOf(item.unitCostCents, price);
  return ok({ unitPriceCents: price, marginPpm, breakdown });
}
