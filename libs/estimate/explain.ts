import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { formatCents } from '#libs/money';
import { SUM } from './breakdown.js';
import type { Breakdown } from './breakdown.js';
import { percentText } from './plain-text.js';
import type { PricedLine, PricedSet } from './price-set.js';
import type { PricingTerms } from './prepare-estimate.js';
import type { TaxOfChoice } from './taxes-of-choice.js';

/** A figure that is the sum of others. */
export function sumOf(figure: string, inputs: readonly Breakdown[], of?: string): Breakdown {
  const total = inputs.reduce((sum, input) => sum + ('cents' in input ? input.cents : 0), 0);
  return { figure, ...(of === undefined ? {} : { of }), cents: cents(total), rule: SUM, inputs };
}

const named = (of: string | undefined): { of?: string } => (of === undefined ? {} : { of });

/** What an amount off the order takes from one kind of charge; nothing to explain where there is none. */
export function explainAmountOff(
  part: 'labour' | 'parts',
  lines: readonly PricedLine[],
  { orderDiscount, given }: PricingTerms,
): Breakdown[] {
  if (orderDiscount?.cents === undefined) return [];
  const off = lines.reduce(
    (sum, line) => sum + (part === 'labour' ? line.labourOffCents : line.itemsOffCents),
    0,
  );
  if (off === 0) return [];
  const before = given.orderDiscountCents ?? 0;
  const less = before === 0 ? '' : `, of which ${formatCents(cents(before))} was given before,`;
  const whole = `${formatCents(orderDiscount.cents)} off the order${less}`;
  return [
    {
      figure: 'order discount',
      ...named(orderDiscount.reason),
      cents: cents(-off),
      rule: `its share of ${whole} by what labour, parts, fluids and sublet cost, never more than that`,
      inputs: [],
    },
  ];
}

const BASE_WORDS = {
  labour: 'labour',
  parts: 'parts and fluids',
  'labour-and-parts': 'labour, parts and fluids',
};

/** The supplies of a choice: the sentence, and the amount that they are a share of. */
export function explainSupplies({ lines, totals }: PricedSet, { given, policy }: PricingTerms): Breakdown {
  const figure = { figure: 'supplies', cents: totals.suppliesCents };
  if (policy.supplies === null) return { ...figure, rule: 'this shop charges no supplies', inputs: [] };
  const words = BASE_WORDS[policy.supplies.base ?? 'labour'];
  const own = lines.reduce((sum, line) => sum + line.suppliesBaseCents, 0);
  if (own === 0) return { ...figure, rule: `no ${words}, no supplies`, inputs: [] };
  const { ratePpm, floorCents, capCents } = policy.supplies;
  const before = given.suppliesBaseCents ?? given.labourCents;
  const bounds = [
    floorCents > 0 ? `at least ${formatCents(floorCents)}` : '',
    capCents === null ? '' : `at most ${formatCents(capCents)}`,
    given.suppliesCents > 0 ? `less ${formatCents(given.suppliesCents)} agreed before` : '',
  ].filter((text) => text !== '');
  const base: Breakdown = {
    figure: 'supplies base',
    of: words,
    cents: cents(own),
    rule: `${words} of this choice`,
    inputs: [],
  };
  const agreed: Breakdown = {
    figure: 'supplies base',
    of: words,
    cents: before,
    rule: 'agreed before',
    inputs: [],
  };
  return {
    ...figure,
    rule: [`${percentText(ratePpm)} of all ${words}, ${formatCents(cents(before + own))}`, ...bounds].join(
      ', ',
    ),
    inputs: before === 0 ? [base] : [base, agreed],
  };
}

export function explainTax(tax: TaxOfChoice, share: Cents, base: Cents, rule: string): Breakdown {
  return {
    figure: 'tax',
    of: tax.rule.name,
    cents: share,
    rule,
    inputs: [
      {
        figure: 'taxed amount',
        cents: base,
        rule: `what the tax falls on: ${tax.rule.on.join(', ')}`,
        inputs: [],
      },
    ],
  };
}

export const taxText = (tax: TaxOfChoice, base: Cents): string =>
  `${percentText(tax.rule.ratePpm)} of ${formatCents(base)}, rounded half up`;

/** The same for taxes that are rounded together: `whole` is what all of them come to. */
export const combinedTaxText = (tax: TaxOfChoice, base: Cents, whole: number): string =>
  `${percentText(tax.rule.ratePpm)} of ${formatCents(base)}; all taxes together are ${formatCents(cents(whole))}, rounded half up once, and this is its share by largest remainder`;
