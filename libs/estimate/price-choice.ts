import { bookHundredths, cents, ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { checkChoice } from './check-choice.js';
import type { ChoiceFault, ChoiceInput } from './check-choice.js';
import type { ChoicePrice, LinePrice } from './choice-price.js';
import { explainLine } from './explain-line.js';
import { explainTotal } from './explain-total.js';
import { prepareEstimate } from './prepare-estimate.js';
import type { PreparedEstimate, PreparedLine } from './prepare-estimate.js';
import { priceSet } from './price-set.js';
import type { PricedSet } from './price-set.js';
import { totalOfChoice } from './total-of-choice.js';
import type { TotalOfChoice } from './total-of-choice.js';

interface Pricing {
  readonly prepared: PreparedEstimate;
  /** The same without an amount off the order: it is given once for all of it, not with every line. */
  readonly byLine: PreparedEstimate;
  readonly chosen: readonly PreparedLine[];
  readonly set: PricedSet;
  readonly totalOf: (chosen: readonly PreparedLine[]) => TotalOfChoice;
}

function priceLine(line: PreparedLine, { prepared, byLine, chosen, set, totalOf }: Pricing): LinePrice {
  const { id } = line.line;
  const alone = priceSet(byLine, [byLine.byId.get(id) ?? line]).totals;
  const every = { id, alone, aloneHundredths: alone.hundredths, aloneTotalCents: alone.totalCents };
  const own = set.lines[chosen.indexOf(line)];
  if (own !== undefined) {
    return {
      ...every,
      ...own.figures,
      chosen: true,
      orderDiscountCents: cents(own.labourOffCents + own.itemsOffCents),
      suppliesBaseCents: own.suppliesBaseCents,
      breakdown: explainLine(set, own, prepared),
    };
  }
  const { hundredths, totalCents } = totalOf([...chosen, line]);
  return {
    ...every,
    chosen: false,
    ifAddedCents: cents(totalCents - set.totals.totalCents),
    ifAddedHundredths: bookHundredths(hundredths - set.totals.hundredths),
  };
}

/**
 * What a choice of lines costs: each chosen line's part of it, the whole, what every line would cost alone, and what
 * each further line would add. The chosen lines add up to the totals exactly, in every figure and for every tax, and
 * nothing depends on the order of lines or choices. Each figure carries its own explanation.
 *
 * The total never falls when a line is added, except by the rounding of cents, and then by no more than this: nothing
 * at all with one effective rate of labour and tax rounded by invoice; with several rates, half a cent for each class of
 * labour before and after; with an amount off the order, two cents on each of labour, parts, fluids and sublet for what
 * supplies and taxes make of it, while their sum cannot fall; with tax rounded by line, half a cent for each line and tax before and
 * after. A line's labour is never above its labour alone by more than a cent for each class of labour, but for a line that has a
 * package to itself and shares steps with others. An amount off the order is given once, so no line has it alone.
 */
export function priceChoice(input: ChoiceInput): Result<ChoicePrice, ChoiceFault> {
  const checked = checkChoice(input);
  if (!checked.ok) return checked;
  const prepared = prepareEstimate(input);
  const wanted = new Set(input.chosen);
  const chosen = prepared.lines.filter(({ line }) => wanted.has(line.id));
  const set = priceSet(prepared, chosen);
  const byLine =
    input.orderDiscount?.cents === undefined
      ? prepared
      : prepareEstimate({ ...input, orderDiscount: undefined });
  const pricing = { prepared, byLine, chosen, set, totalOf: totalOfChoice(prepared) };
  const lines = input.lines.flatMap(({ id }) => {
    const line = prepared.byId.get(id);
    return line === undefined ? [] : [priceLine(line, pricing)];
  });
  return ok({
    lines,
    totals: { ...set.totals, breakdown: explainTotal(set, prepared) },
    packages: set.labour.packages.map(({ key, package: { name, lineIds } }) => ({ key, name, lineIds })),
  });
}
