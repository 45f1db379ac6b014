import { cents, ppm } from '#libs/kernel';
import type { Cents, Ppm } from '#libs/kernel';
import { itemsOfLine, taxableItems } from '#libs/estimate';
import type {
  AlreadyAgreed,
  ChoicePrice,
  ChosenLinePrice,
  EstimateItem,
  EstimateLine,
  FrozenContingency,
  FrozenUnseen,
  ItemsOfLine,
  LineSpread,
  OrderDiscount,
  PricingPolicy,
  TaxKind,
} from '#libs/estimate';
import { carriedSpread, labourSpread } from './labour-spread.js';
import type { RangeContingency, RangeInput, RangeLine, RangeSupplies } from './range-input.js';
import { point } from './spread.js';
import type { Spread } from './spread.js';

/** A line with its spread; without one it is sure. */
export interface RangedLine extends EstimateLine {
  readonly spread?: LineSpread;
}

/** Something that may happen on a line of the estimate, whether the line is still open or not. */
export interface RangedContingency {
  readonly offered: Pick<FrozenContingency, 'id' | 'chancePpm' | 'hundredths' | 'items'> & {
    /** Null where nothing limits it. */
    readonly capCents: Cents | null;
  };
  readonly line: Pick<EstimateLine, 'rateCentsPerHour' | 'noCharge'>;
}

/** A priced choice of an estimate's lines, and what may come to it. */
export interface ChoiceToRange {
  readonly lines: readonly RangedLine[];
  /** Of the choice: the lines that it prices as chosen are in the range. */
  readonly price: ChoicePrice;
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
  readonly orderDiscount?: OrderDiscount;
  readonly contingencies: readonly RangedContingency[];
  readonly unseen: readonly FrozenUnseen[];
  readonly commonSpreadPpm: Ppm;
  /** Chosen lines that the owner has agreed to: their price is fixed, and nothing of them varies any more. */
  readonly agreed: ReadonlySet<string>;
  /** What else is agreed to and belongs to the total. */
  readonly agreedCents: Cents;
}

/**
 * A range's input from a priced choice: each line varies in proportion to what it carries, so that shared steps,
 * packages and discounts are in it as the owner would pay them, and the likely total is the price to the cent.
 */
export function rangeOfChoice(choice: ChoiceToRange): RangeInput {
  const { price, policy, agreed } = choice;
  const lines = new Map(choice.lines.map((line) => [line.id, line]));
  const chosen = price.lines.filter((line): line is ChosenLinePrice => line.chosen);
  const fixed = chosen.filter(({ id }) => agreed.has(id));
  const sum = (of: (line: ChosenLinePrice) => number): number =>
    fixed.reduce((total, line) => total + of(line), 0);
  const fixedCents = sum(({ totalCents }) => totalCents);
  return {
    lines: chosen.flatMap((own) => {
      const line = lines.get(own.id);
      return line === undefined || agreed.has(own.id) ? [] : [rangeLine(line, own, choice)];
    }),
    contingencies: choice.contingencies.map((one) => rangeContingency(one, policy)),
    unseen: choice.unseen.map(({ checkpointId, chancePpm, lowCents, likelyCents, highCents }) => ({
      id: checkpointId,
      chancePpm,
      cents: { low: lowCents, likely: likelyCents, high: highCents },
    })),
    commonSpreadPpm: choice.commonSpreadPpm,
    labourTaxPpm: taxOn(policy, 'labour'),
    supplies: rangeSupplies(
      choice,
      sum(({ suppliesBaseCents }) => suppliesBaseCents),
      sum(({ suppliesCents }) => suppliesCents),
    ),
    fixedCents: cents(choice.agreedCents + fixedCents),
    likelyCents: cents(price.totals.totalCents - fixedCents),
  };
}

function rangeLine(line: RangedLine, own: ChosenLinePrice, choice: ChoiceToRange): RangeLine {
  const items = itemsOfLine(line, choice.orderDiscount);
  const { spread } = line;
  const { labourCents, partsCents, coreCents } = own;
  const { itemsTaxPpm, itemsBearPpm } = itemRates(items, choice.policy);
  const base = { id: line.id, itemsTaxPpm, itemsBearPpm };
  if (spread === undefined)
    return { ...base, labour: point(labourCents), items: point(partsCents + coreCents) };
  const hours = line.steps.reduce((total, { hundredths }) => total + hundredths, 0);
  const worked = around(hours, spread.lowHundredths, spread.highHundredths);
  const gross = items.items.reduce((total, { grossCents }) => total + grossCents, 0);
  const sold = carriedSpread(around(gross, spread.lowItemsCents, spread.highItemsCents), partsCents);
  const rate = line.noCharge == null ? line.rateCentsPerHour : cents(0);
  return {
    ...base,
    labour: hours === 0 ? labourSpread(worked, rate) : carriedSpread(worked, labourCents),
    items: { low: sold.low + coreCents, likely: sold.likely + coreCents, high: sold.high + coreCents },
  };
}

/** The line itself is what is likely, also where its spread was entered for another. */
const around = (likely: number, low: number, high: number): Spread => ({
  low: Math.min(low, likely),
  likely,
  high: Math.max(high, likely),
});

function rangeContingency({ offered, line }: RangedContingency, policy: PricingPolicy): RangeContingency {
  const { id, chancePpm, capCents } = offered;
  const items = itemsOfLine(asLine(id, offered.items));
  const rate = line.noCharge == null ? line.rateCentsPerHour : cents(0);
  return {
    id,
    labour: labourSpread(point(offered.hundredths), rate),
    items: point(items.partsCents + items.coreCents),
    ...itemRates(items, policy),
    chancePpm,
    capCents,
  };
}

const asLine = (id: string, items: readonly EstimateItem[]): EstimateLine => ({
  id,
  steps: [],
  rateId: '',
  rateCentsPerHour: cents(0),
  items,
});

/** Tax on a line's items, and how much of them supplies may follow, as shares of all of them. */
function itemRates(
  items: ItemsOfLine,
  { taxes }: PricingPolicy,
): { readonly itemsTaxPpm: Ppm; readonly itemsBearPpm: Ppm } {
  const all = items.partsCents + items.coreCents;
  if (all === 0) return { itemsTaxPpm: ppm(0), itemsBearPpm: ppm(0) };
  const taxed = taxes.reduce((sum, { on, ratePpm }) => sum + taxableItems(items, on) * ratePpm, 0);
  const bearing = items.items.reduce(
    (sum, { item, cents: price }) => sum + (item.kind === 'part' || item.kind === 'fluid' ? price : 0),
    0,
  );
  return { itemsTaxPpm: ppm(Math.round(taxed / all)), itemsBearPpm: ppm(Math.round((bearing / all) * 1e6)) };
}

const taxOn = ({ taxes }: PricingPolicy, kind: TaxKind): Ppm =>
  ppm(taxes.reduce((sum, { on, ratePpm }) => sum + (on.includes(kind) ? ratePpm : 0), 0));

function rangeSupplies(
  { given, policy }: ChoiceToRange,
  fixedBase: number,
  fixedSupplies: number,
): RangeSupplies | null {
  const { supplies } = policy;
  if (supplies === null) return null;
  const { ratePpm, floorCents, capCents, base } = supplies;
  return {
    ratePpm,
    floorCents,
    capCents,
    base: base ?? 'labour',
    givenBaseCents: cents((given.suppliesBaseCents ?? given.labourCents) + fixedBase),
    givenSuppliesCents: cents(given.suppliesCents + fixedSupplies),
    taxPpm: taxOn(policy, 'supplies'),
  };
}
