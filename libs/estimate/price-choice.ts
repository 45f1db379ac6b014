import { bookHundredths, cents, ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { checkChoice } from './check-choice.js';
import type { ChoiceFault, ChoiceInput } from './check-choice.js';
import type { ChoicePrice, LinePrice } from './choice-price.js';
import type { EstimateLine } from './estimate-line.js';
import { explainLine } from './explain-line.js';
import { explainTotal } from './explain-total.js';
import { priceSet } from './price-set.js';
import type { PricedSet } from './price-set.js';

function priceLine(line: EstimateLine, set: PricedSet, input: ChoiceInput): Result<LinePrice, ChoiceFault> {
  const single = priceSet([line], input);
  if (!single.ok) return single;
  const alone = single.value.totals;
  const every = { id: line.id, alone, aloneHundredths: alone.hundredths, aloneTotalCents: alone.totalCents };

  const own = set.lines.find((priced) => priced.line === line);
  if (own !== undefined) {
    return ok({ ...every, ...own.figures, chosen: true, breakdown: explainLine(set, own, input) });
  }
  const widened = priceSet([...set.lines.map((priced) => priced.line), line], input);
  if (!widened.ok) return widened;
  const { totals } = widened.value;
  return ok({
    ...every,
    chosen: false,
    ifAddedCents: cents(totals.totalCents - set.totals.totalCents),
    ifAddedHundredths: bookHundredths(totals.hundredths - set.totals.hundredths),
  });
}

/**
 * What a choice of lines costs: each chosen line's part of it, the whole, what every line would cost alone, and what
 * each further line would add. The chosen lines add up to the totals exactly, in every figure and for every tax, and
 * nothing depends on the order of lines or choices. Each figure carries its own explanation.
 *
 * The total never falls when a line is added, except by the rounding of cents, and then by no more than this: nothing
 * at all with one labour rate and tax rounded by invoice; with several rates, half a cent for each class of labour
 * before and after, and what supplies and taxes make of that; with tax rounded by line, half a cent for each line and tax
 * before and after. A line's labour is never above its labour alone by more than a cent for each class of labour.
 */
export function priceChoice(input: ChoiceInput): Result<ChoicePrice, ChoiceFault> {
  const checked = checkChoice(input);
  if (!checked.ok) return checked;
  const chosen = new Set(input.chosen);
  const set = priceSet(
    input.lines.filter(({ id }) => chosen.has(id)),
    input,
  );
  if (!set.ok) return set;
  const lines: LinePrice[] = [];
  for (const line of input.lines) {
    const priced = priceLine(line, set.value, input);
    if (!priced.ok) return priced;
    lines.push(priced.value);
  }
  return ok({ lines, totals: { ...set.value.totals, breakdown: explainTotal(set.value, input) } });
}
