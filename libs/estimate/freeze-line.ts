import { cents } from '#libs/kernel';
import type { Figures, LinePrice } from './choice-price.js';
import type { EstimateStep, LineDiscount } from './estimate-line.js';
import type {
  FrozenContingency,
  FrozenItem,
  FrozenLine,
  LineChoice,
  LineSpread,
  RevisionItem,
  RevisionLine,
} from './frozen-revision.js';

/** The members that have a value: a document leaves nothing undefined. */
export function present<T extends object>(members: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  const kept = Object.entries(members).filter(([, value]) => value !== undefined);
  return Object.fromEntries(kept) as { [K in keyof T]: Exclude<T[K], undefined> };
}

/** Only the figures, without what else the object carries: the document holds nothing by accident. */
export function freezeFigures(figures: Figures): Figures {
  const { hundredths, labourCents, partsCents, coreCents, suppliesCents, taxCents } = figures;
  const { discountCents, totalCents } = figures;
  const taxes = figures.taxes.map(({ name, cents: tax }) => ({ name, cents: tax }));
  return {
    hundredths,
    labourCents,
    partsCents,
    coreCents,
    suppliesCents,
    taxCents,
    taxes,
    discountCents,
    totalCents,
  };
}

const freezeItem = (item: RevisionItem): FrozenItem => ({
  id: item.id,
  kind: item.kind,
  words: item.words,
  condition: item.condition ?? null,
  quantityHundredths: item.quantityHundredths,
  unitPriceCents: item.unitPriceCents,
  coreCents: item.coreCents ?? cents(0),
});

const freezeStep = ({
  step,
  position,
  hundredths,
  rateId,
  rateCentsPerHour,
}: EstimateStep): EstimateStep => ({
  step,
  position,
  hundredths,
  ...present({ rateId, rateCentsPerHour }),
});

const freezeDiscount = ({ labourPpm, itemsPpm, itemsCents, reason }: LineDiscount): LineDiscount => ({
  ...present({ labourPpm, itemsPpm, itemsCents }),
  reason,
});

const freezeChoice = ({ benefit, why, mustInclude, requires, excludes }: LineChoice): LineChoice => ({
  benefit,
  why,
  mustInclude,
  requires: [...requires],
  excludes: [...excludes],
});

const freezeSpread = (spread: LineSpread): LineSpread => ({
  lowHundredths: spread.lowHundredths,
  highHundredths: spread.highHundredths,
  lowItemsCents: spread.lowItemsCents,
  highItemsCents: spread.highItemsCents,
});

const freezeContingency = (one: FrozenContingency): FrozenContingency => ({
  id: one.id,
  what: one.what,
  chancePpm: one.chancePpm,
  hundredths: one.hundredths,
  capCents: one.capCents,
  items: one.items.map(freezeItem),
});

/** What a line may have and need not. */
function extrasOf(line: RevisionLine): Partial<FrozenLine> {
  const { noCharge, discount, choice, spread, contingencies } = line;
  return present({
    noCharge: noCharge ?? undefined,
    discount: discount ? freezeDiscount(discount) : undefined,
    choice: choice && freezeChoice(choice),
    spread: spread && freezeSpread(spread),
    contingencies: contingencies?.map(freezeContingency),
  });
}

/** A line as it is offered: what the owner is shown, what prices it, and its figures alone and with everything chosen. */
export function freezeLine(line: RevisionLine, price: LinePrice): FrozenLine {
  const { id, title, verdict, mayDrive, why, consequence, operations, rateId, rateCentsPerHour } = line;
  return {
    id,
    title,
    verdict,
    mayDrive,
    why,
    consequence,
    measured: (line.measured ?? []).map(({ reading, limit, source }) => ({ reading, limit, source })),
    photos: [...(line.photos ?? [])],
    operations: [...operations],
    rateId,
    rateCentsPerHour,
    steps: line.steps.map(freezeStep),
    items: line.items.map(freezeItem),
    ...extrasOf(line),
    alone: freezeFigures(price.alone),
    together: freezeFigures(price.chosen ? price : price.alone),
  };
}
