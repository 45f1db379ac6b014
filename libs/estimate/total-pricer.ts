import { bookHundredths, cents, ok } from '#libs/kernel';
import type { Cents, Result } from '#libs/kernel';
import { labourCents } from '#libs/labour';
import { taxOn } from '#libs/money';
import { checkChoice } from './check-choice.js';
import type { ChoiceFault, ChoiceInput } from './check-choice.js';
import type { EstimateLine } from './estimate-line.js';
import { itemsOfLine, taxableItems } from './items-of-line.js';
import { lessAgreed } from './less-agreed.js';
import { pairKey } from './pair-key.js';
import { priceSet } from './price-set.js';
import { suppliesOfChoice } from './supplies-of-choice.js';

/** The total of a choice of lines, which are members of the list that the pricer was made for. */
export type TotalPricer = (chosen: readonly EstimateLine[]) => Cents;

/**
 * Checks an estimate once and prices any choice of its lines: the total of `priceChoice`, without its lines and
 * explanations. For searches, which ask thousands of times. Where tax is rounded by line, the total hangs on who carries
 * which cent, and costs as much as the whole price.
 */
export function totalPricer(input: Omit<ChoiceInput, 'chosen'>): Result<TotalPricer, ChoiceFault> {
  const checked = checkChoice({ ...input, chosen: [] });
  if (!checked.ok) return checked;
  if (input.policy.taxRounding === 'invoice') return ok(byInvoice(input));
  return ok((chosen) => {
    const set = priceSet(chosen, input);
    if (!set.ok) throw new RangeError(`a checked estimate cannot be priced: ${set.fault.detail}`);
    return set.value.totals.totalCents;
  });
}

function byInvoice({ lines, given, policy }: Omit<ChoiceInput, 'chosen'>): TotalPricer {
  const left = lessAgreed(given);
  const ready = new Map(
    lines.map((line) => {
      const items = itemsOfLine(line);
      return [
        line.id,
        {
          rate: line.rateCentsPerHour,
          steps: left(line.steps).map((step) => ({ key: pairKey(step), hundredths: step.hundredths })),
          itemCents: items.partsCents + items.coreCents,
          taxable: policy.taxes.map(({ on }) => taxableItems(items, on)),
        },
      ];
    }),
  );
  return (chosen) => {
    const dearest = new Map<string, { rate: Cents; hundredths: number }>();
    let itemCents = 0;
    const taxable = policy.taxes.map(() => 0);
    for (const { id } of chosen) {
      const line = ready.get(id);
      if (line === undefined) throw new RangeError(`line "${id}" is not part of this estimate`);
      itemCents += line.itemCents;
      line.taxable.forEach((amount, at) => (taxable[at] = (taxable[at] ?? 0) + amount));
      for (const { key, hundredths } of line.steps) {
        const known = dearest.get(key);
        if (known === undefined || line.rate > known.rate) dearest.set(key, { rate: line.rate, hundredths });
      }
    }
    const hours = new Map<Cents, number>();
    for (const { rate, hundredths } of dearest.values()) hours.set(rate, (hours.get(rate) ?? 0) + hundredths);
    const labour = [...hours].reduce((sum, [rate, sold]) => sum + labourCents(bookHundredths(sold), rate), 0);
    const supplies = suppliesOfChoice(cents(labour), given, policy.supplies);
    const tax = policy.taxes.reduce((sum, { on, ratePpm }, at) => {
      const base =
        (taxable[at] ?? 0) + (on.includes('labour') ? labour : 0) + (on.includes('supplies') ? supplies : 0);
      return sum + taxOn(cents(base), ratePpm);
    }, 0);
    return cents(labour + itemCents + supplies + tax);
  };
}
