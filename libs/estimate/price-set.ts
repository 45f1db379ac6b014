import { bookHundredths, cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { amountOffOrder } from './amount-off-order.js';
import type { Figures } from './choice-price.js';
import type { ItemsOfLine } from './items-of-line.js';
import { labourDiscount } from './labour-discount.js';
import { labourOfChoice } from './labour-of-choice.js';
import type { LabourOfChoice } from './labour-of-choice.js';
import { CHARGES, CORE, FEE, FLUID, LABOUR, PART } from './prepare-estimate.js';
import type { PreparedEstimate, PreparedLine } from './prepare-estimate.js';
import type { TaxRule } from './pricing-policy.js';
import { splitCents } from './split-cents.js';
import { suppliesBase, suppliesOfChoice } from './supplies-of-choice.js';
import { taxesOfChoice } from './taxes-of-choice.js';
import type { TaxOfChoice } from './taxes-of-choice.js';

export interface PricedLine {
  readonly prepared: PreparedLine;
  readonly items: ItemsOfLine;
  /** Its labour before an amount off the order; with that off it is the figure. */
  readonly labourCents: Cents;
  /** Its part of an amount off the order: of labour, and of items. */
  readonly labourOffCents: Cents;
  readonly itemsOffCents: Cents;
  readonly suppliesBaseCents: Cents;
  readonly figures: Figures;
}

/** A set of lines priced together, with what is needed to explain it. */
export interface PricedSet {
  readonly lines: readonly PricedLine[];
  readonly labour: LabourOfChoice;
  readonly taxes: readonly TaxOfChoice[];
  readonly totals: Figures;
}

type Component = Exclude<keyof Figures, 'taxes'>;

const add = (amounts: readonly number[]): number => amounts.reduce((sum, one) => sum + one, 0);

function totalsOf(lines: readonly PricedLine[], taxes: readonly TaxOfChoice[]): Figures {
  const sum = (component: Component): number => add(lines.map(({ figures }) => figures[component]));
  return {
    hundredths: bookHundredths(sum('hundredths')),
    labourCents: cents(sum('labourCents')),
    partsCents: cents(sum('partsCents')),
    coreCents: cents(sum('coreCents')),
    suppliesCents: cents(sum('suppliesCents')),
    taxCents: cents(sum('taxCents')),
    taxes: taxes.map(({ rule, cents: tax }) => ({ name: rule.name, cents: tax })),
    discountCents: cents(sum('discountCents')),
    totalCents: cents(sum('totalCents')),
  };
}

/** Whether a tax falls on each of `CHARGES`; a core deposit is taxed where parts are. */
export const isTaxed = ({ on }: TaxRule): boolean[] =>
  CHARGES.map((charge) => on.includes(charge === 'core' ? 'part' : charge));

/** What is charged on each line by kind, after everything that comes off, and what the amount off the order took. */
function chargesOf(
  { terms }: PreparedEstimate,
  chosen: readonly PreparedLine[],
  labour: readonly number[],
): { charges: number[][]; off: number[][] } {
  const gross = chosen.map((line, at) =>
    line.charges.map((charge, kind) => (kind === LABOUR ? (labour[at] ?? 0) : charge)),
  );
  if (terms.orderDiscount?.cents === undefined) return { charges: gross, off: gross.map(() => []) };
  const wholes = CHARGES.map((_, kind) => add(gross.map((line) => line[kind] ?? 0)));
  const byKind = amountOffOrder(terms.orderDiscount, terms.given, wholes).map((amount, kind) =>
    splitCents(
      amount,
      gross.map((line) => line[kind] ?? 0),
    ),
  );
  const off = gross.map((_, at) => byKind.map((lines) => lines[at] ?? 0));
  return {
    charges: gross.map((line, at) => line.map((charge, kind) => charge - (off[at]?.[kind] ?? 0))),
    off,
  };
}

/** Prices a set of lines, in the order of the prepared estimate, as one choice. */
export function priceSet(prepared: PreparedEstimate, chosen: readonly PreparedLine[]): PricedSet {
  const { given, policy } = prepared.terms;
  const labour = labourOfChoice(prepared, chosen);
  const hours = chosen.map(() => 0);
  const money = chosen.map(() => 0);
  for (const { members } of labour.classes) {
    for (const { at, hundredths, cents: share } of members) {
      hours[at] = (hours[at] ?? 0) + hundredths;
      money[at] = (money[at] ?? 0) + share;
    }
  }
  const { charges, off } = chargesOf(prepared, chosen, money);
  const bases = charges.map((line) =>
    suppliesBase(policy.supplies, line[LABOUR] ?? 0, (line[PART] ?? 0) + (line[FLUID] ?? 0)),
  );
  const supplies = splitCents(suppliesOfChoice(add(bases), given, policy.supplies), bases);
  const taxes = taxesOfChoice(policy, (rule) => {
    const taxed = isTaxed(rule);
    const onSupplies = rule.on.includes('supplies');
    return charges.map((line, at) => {
      const own = line.reduce((sum, charge, kind) => (taxed[kind] === true ? sum + charge : sum), 0);
      return cents(own + (onSupplies ? (supplies[at] ?? 0) : 0));
    });
  });
  const lines = chosen.map((line, at): PricedLine => {
    const own = charges[at] ?? [];
    const labourCents = cents(money[at] ?? 0);
    const [labourOff = 0, ...itemsOff] = off[at] ?? [];
    const ownTaxes = taxes.map(({ rule, perLine }) => ({ name: rule.name, cents: perLine[at] ?? cents(0) }));
    const tax = add(ownTaxes.map((one) => one.cents));
    const { items } = line;
    const taken = labourDiscount(prepared, labour, line, labourCents) + labourOff + add(itemsOff);
    const figures: Figures = {
      hundredths: bookHundredths(hours[at] ?? 0),
      labourCents: cents(own[LABOUR] ?? 0),
      partsCents: cents(add(own.slice(PART, FEE + 1))),
      coreCents: cents(own[CORE] ?? 0),
      suppliesCents: supplies[at] ?? cents(0),
      taxCents: cents(tax),
      taxes: ownTaxes,
      discountCents: cents(taken + items.lineDiscountCents + items.orderDiscountCents),
      totalCents: cents(add(own) + (supplies[at] ?? 0) + tax),
    };
    return {
      prepared: line,
      items,
      labourCents,
      labourOffCents: cents(labourOff),
      itemsOffCents: cents(add(itemsOff)),
      suppliesBaseCents: cents(bases[at] ?? 0),
      figures,
    };
  });
  return { lines, labour, taxes, totals: totalsOf(lines, taxes) };
}
