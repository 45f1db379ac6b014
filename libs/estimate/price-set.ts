import { bookHundredths, cents, ok } from '#libs/kernel';
import type { Cents, Result } from '#libs/kernel';
import { compareCodePoints } from '#libs/labour';
import type { LabourFault } from '#libs/labour';
import { allocate } from '#libs/money';
import type { AlreadyAgreed } from './already-agreed.js';
import type { Figures } from './choice-price.js';
import type { EstimateLine } from './estimate-line.js';
import { itemsOfLine, taxableItems } from './items-of-line.js';
import type { ItemsOfLine } from './items-of-line.js';
import { labourOfChoice } from './labour-of-choice.js';
import type { LabourClass } from './labour-of-choice.js';
import type { PricingPolicy } from './pricing-policy.js';
import { suppliesOfChoice } from './supplies-of-choice.js';
import { taxesOfChoice } from './taxes-of-choice.js';
import type { TaxOfChoice } from './taxes-of-choice.js';

export interface PricedLine {
  readonly line: EstimateLine;
  readonly items: ItemsOfLine;
  readonly figures: Figures;
}

/** A set of lines priced together, with what is needed to explain it. */
export interface PricedSet {
  readonly lines: readonly PricedLine[];
  readonly classes: readonly LabourClass[];
  readonly taxes: readonly TaxOfChoice[];
  readonly totals: Figures;
}

export interface PricingTerms {
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
}

type Component =
  'hundredths' | 'labourCents' | 'partsCents' | 'coreCents' | 'suppliesCents' | 'taxCents' | 'totalCents';

function totalsOf(lines: readonly PricedLine[], taxes: readonly TaxOfChoice[]): Figures {
  const sum = (component: Component): number =>
    lines.reduce((total, { figures }) => total + figures[component], 0);
  return {
    hundredths: bookHundredths(sum('hundredths')),
    labourCents: cents(sum('labourCents')),
    partsCents: cents(sum('partsCents')),
    coreCents: cents(sum('coreCents')),
    suppliesCents: cents(sum('suppliesCents')),
    taxCents: cents(sum('taxCents')),
    taxes: taxes.map(({ rule, cents: tax }) => ({ name: rule.name, cents: tax })),
    totalCents: cents(sum('totalCents')),
  };
}

/** A line's labour over all classes. */
function labourOf(id: string, classes: readonly LabourClass[]): { hours: number; money: Cents } {
  const own = classes.flatMap(({ members }) => members.filter((member) => member.id === id));
  return {
    hours: own.reduce((sum, member) => sum + member.hundredths, 0),
    money: cents(own.reduce((sum, member) => sum + member.cents, 0)),
  };
}

/** Prices a set of lines as one choice. The result does not depend on the order of the lines. */
export function priceSet(
  unordered: readonly EstimateLine[],
  terms: PricingTerms,
): Result<PricedSet, LabourFault> {
  const { given, policy } = terms;
  const lines = [...unordered].sort((left, right) => compareCodePoints(left.id, right.id));
  const classes = labourOfChoice(lines, given);
  if (!classes.ok) return classes;

  const labour = lines.map(({ id }) => labourOf(id, classes.value));
  const items = lines.map(itemsOfLine);
  const allLabour = cents(labour.reduce((sum, { money }) => sum + money, 0));
  const supplies = allocate(
    suppliesOfChoice(allLabour, given, policy.supplies),
    labour.map(({ money }) => money),
  );
  const taxes = taxesOfChoice(policy, ({ on }) =>
    items.map((own, at) => {
      const onLabour = on.includes('labour') ? (labour[at]?.money ?? 0) : 0;
      const onSupplies = on.includes('supplies') ? (supplies[at] ?? 0) : 0;
      return cents(onLabour + onSupplies + taxableItems(own, on));
    }),
  );

  const priced = lines.map((line, at): PricedLine => {
    const own = items[at] ?? itemsOfLine(line);
    const { hours, money } = labour[at] ?? { hours: 0, money: cents(0) };
    const supply = supplies[at] ?? cents(0);
    const ownTaxes = taxes.map(({ rule, perLine }) => ({ name: rule.name, cents: perLine[at] ?? cents(0) }));
    const tax = ownTaxes.reduce((sum, { cents: one }) => sum + one, 0);
    const figures: Figures = {
      hundredths: bookHundredths(hours),
      labourCents: money,
      partsCents: own.partsCents,
      coreCents: own.coreCents,
      suppliesCents: supply,
      taxCents: cents(tax),
      taxes: ownTaxes,
      totalCents: cents(money + own.partsCents + own.coreCents + supply + tax),
    };
    return { line, items: own, figures };
  });
  return ok({ lines: priced, classes: classes.value, taxes, totals: totalsOf(priced, taxes) });
}
