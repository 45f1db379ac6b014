import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { formatCents } from '#libs/money';
import type { Breakdown } from './breakdown.js';
import type { Figures } from './choice-price.js';
import { SUM } from './breakdown.js';
import type { ItemsOfLine } from './items-of-line.js';
import type { PricingPolicy, TaxKind } from './pricing-policy.js';
import { percentText } from './plain-text.js';
import { taxesOn } from './taxes-of-choice.js';

interface OverCap {
  readonly figures: Figures;
  readonly breakdown: Breakdown;
  readonly items: ItemsOfLine;
  readonly capCents: Cents;
  readonly policy: PricingPolicy;
}

/** One amount that can be cut by itself, with the kind under which it is taxed. */
interface Portion {
  readonly of: 'labour' | 'supplies' | 'parts' | 'core deposits';
  readonly taxedAs: TaxKind;
  readonly cents: number;
}

interface Cut {
  readonly portions: readonly Portion[];
  /** In the order of the policy's taxes. */
  readonly bases: readonly Cents[];
  readonly taxes: readonly Cents[];
  readonly totalCents: number;
}

const sum = (amounts: readonly number[]): number => amounts.reduce((all, one) => all + one, 0);
const total = (amounts: readonly { readonly cents: number }[]): number =>
  sum(amounts.map((amount) => amount.cents));

/** In the order in which they give way. */
function portionsOf({ figures, items }: OverCap): Portion[] {
  return [
    { of: 'labour', taxedAs: 'labour', cents: figures.labourCents },
    { of: 'supplies', taxedAs: 'supplies', cents: figures.suppliesCents },
    ...items.items.map(({ item, cents: price }) => ({
      of: 'parts' as const,
      taxedAs: item.kind,
      cents: price,
    })),
    { of: 'core deposits', taxedAs: 'part', cents: figures.coreCents },
  ];
}

function cutBy(amount: number, whole: readonly Portion[], policy: PricingPolicy): Cut {
  let open = amount;
  const portions = whole.map((portion) => {
    const off = Math.min(open, portion.cents);
    open -= off;
    return { ...portion, cents: portion.cents - off };
  });
  const bases = policy.taxes.map(({ on }) =>
    cents(total(portions.filter(({ taxedAs }) => on.includes(taxedAs)))),
  );
  const taxes = taxesOn(policy, bases).map(cents);
  return { portions, bases, taxes, totalCents: total(portions) + sum(taxes) };
}

/**
 * The least cut that brings the total to the cap or below. No cent less before tax ever raises a tax, so the total
 * falls with the cut and the least one is found by halving.
 */
function leastCut(whole: readonly Portion[], { capCents, policy }: OverCap): Cut {
  let [tooLittle, enough] = [0, total(whole)];
  while (enough - tooLittle > 1) {
    const middle = Math.floor((tooLittle + enough) / 2);
    if (cutBy(middle, whole, policy).totalCents <= capCents) enough = middle;
    else tooLittle = middle;
  }
  return cutBy(enough, whole, policy);
}

const of = (name: Portion['of'], { portions }: Cut): Cents =>
  cents(total(portions.filter((portion) => portion.of === name)));

function explainCut({ figures, breakdown, capCents, policy }: OverCap, cut: Cut): Breakdown {
  const cap = `the cap of ${formatCents(capCents)}, tax included`;
  const amounts = breakdown.inputs.flatMap((input): Breakdown[] => {
    if (!('cents' in input) || input.figure === 'tax') return [];
    const left = of(input.figure as Portion['of'], cut);
    const off = cents(input.cents - left);
    if (off === 0) return [input];
    return [
      {
        figure: input.figure,
        cents: left,
        rule: `${formatCents(input.cents)} less ${formatCents(off)} over ${cap}`,
        inputs: [input],
      },
    ];
  });
  return {
    figure: 'total',
    cents: cents(cut.totalCents),
    rule: `${SUM}; ${formatCents(figures.totalCents)} without ${cap}`,
    inputs: [...amounts, explainTaxes(cut, policy)],
  };
}

function explainTaxes({ bases, taxes }: Cut, policy: PricingPolicy): Breakdown {
  const rounded = policy.taxesCombined === true ? 'all taxes rounded half up once' : 'rounded half up';
  const inputs = policy.taxes.map(({ name, ratePpm, on }, at): Breakdown => {
    const base = bases[at] ?? cents(0);
    return {
      figure: 'tax',
      of: name,
      cents: taxes[at] ?? cents(0),
      rule: `${percentText(ratePpm)} of ${formatCents(base)}, which is left; ${rounded}`,
      inputs: [
        { figure: 'taxed amount', cents: base, rule: `what the tax falls on: ${on.join(', ')}`, inputs: [] },
      ],
    };
  });
  return { figure: 'tax', cents: cents(sum(taxes)), rule: SUM, inputs };
}

/** The figures of a contingency brought down to its cap, and how. */
export function cutToCap(over: OverCap): { readonly figures: Figures; readonly breakdown: Breakdown } {
  const cut = leastCut(portionsOf(over), over);
  const figures: Figures = {
    ...over.figures,
    labourCents: of('labour', cut),
    partsCents: of('parts', cut),
    coreCents: of('core deposits', cut),
    suppliesCents: of('supplies', cut),
    taxCents: cents(sum(cut.taxes)),
    taxes: over.policy.taxes.map(({ name }, at) => ({ name, cents: cut.taxes[at] ?? cents(0) })),
    totalCents: cents(cut.totalCents),
  };
  return { figures, breakdown: explainCut(over, cut) };
}
