import { cents, fail, ok } from '#libs/kernel';
import type { Fault, FieldFault, Result } from '#libs/kernel';
import { divideHalfUp, extend } from '#libs/money';
import type { Breakdown } from './breakdown.js';
import { checkChoice } from './check-choice.js';
import type { ChoiceFault, ChoiceInput } from './check-choice.js';
import type { Figures } from './choice-price.js';
import type { CreditedLine } from './credited-line.js';
import { explainCredit } from './explain-credit.js';
import { figuresLess, NO_FIGURES } from './figures-less.js';
import { backTogether, NOTHING_BACK } from './given-back.js';
import type { GivenBack } from './given-back.js';
import { prepareEstimate } from './prepare-estimate.js';
import { priceSet } from './price-set.js';
import type { PricedSet } from './price-set.js';

/** `back-impossible`: more would be given back than was charged; each impossible entry is pointed at. */
export type CreditFault = ChoiceFault | Fault<'back-impossible'>;

/** A credit note: the lines add up to the totals in every figure and for every tax. */
export interface Credit {
  readonly lines: readonly CreditedLine[];
  /** Zero or less, every one of them. */
  readonly totals: Figures;
  readonly breakdown: Breakdown;
}

function backFaults(set: PricedSet, back: GivenBack, all: GivenBack): FieldFault[] {
  const charged = new Map(set.lines.map(({ prepared: { line } }) => [line.id, line]));
  const faults: FieldFault[] = [];
  back.lineIds.forEach((id, at) => {
    const pointer = `/lineIds/${at}`;
    if (!charged.has(id)) faults.push({ pointer, detail: 'This line was not charged.' });
    else if (all.lineIds.filter((one) => one === id).length > 1) {
      faults.push({ pointer, detail: 'This line was given back already.' });
    }
  });
  back.cores.forEach(({ lineId, itemId, quantityHundredths }, at) => {
    const item = charged.get(lineId)?.items.find(({ id }) => id === itemId);
    const returned = all.cores.find((core) => core.lineId === lineId && core.itemId === itemId);
    const own = `/cores/${at}`;
    if (item === undefined || (item.coreCents ?? 0) === 0) {
      faults.push({ pointer: `${own}/itemId`, detail: 'No core deposit was charged for this item.' });
    } else if (all.lineIds.includes(lineId)) {
      faults.push({
        pointer: `${own}/lineId`,
        detail: 'The line is given back, and its core deposits with it.',
      });
    } else if (
      !(Number.isSafeInteger(quantityHundredths) && quantityHundredths > 0) ||
      (returned?.quantityHundredths ?? 0) > item.quantityHundredths
    ) {
      faults.push({
        pointer: `${own}/quantityHundredths`,
        detail: `At most ${item.quantityHundredths} hundredths can come back, less what came back before.`,
      });
    }
  });
  return faults;
}

/** What comes back of a line of which only cores are returned: the deposits, and their part of the tax that was charged. */
function coresOf(set: PricedSet, at: number, { cores }: GivenBack): Figures {
  const line = set.lines[at]?.prepared.line;
  const core = cores
    .filter(({ lineId }) => lineId === line?.id)
    .reduce((sum, { itemId, quantityHundredths }) => {
      const item = line?.items.find(({ id }) => id === itemId);
      return sum + extend(quantityHundredths, item?.coreCents ?? cents(0));
    }, 0);
  const taxes = set.taxes.map(({ rule, bases, perLine }) => {
    const base = bases[at] ?? 0;
    const taxed = rule.on.includes('part') && base > 0 ? core : 0;
    const part = taxed === 0 ? 0n : divideHalfUp(BigInt(perLine[at] ?? 0) * BigInt(taxed), BigInt(base));
    return { name: rule.name, cents: cents(Number(part)) };
  });
  const tax = taxes.reduce((sum, one) => sum + one.cents, 0);
  return {
    ...NO_FIGURES,
    coreCents: cents(core),
    taxes,
    taxCents: cents(tax),
    totalCents: cents(core + tax),
  };
}

/**
 * The credit for what an owner gives back of a choice that they were charged for, on top of what they gave back before.
 * A line comes back with exactly the figures that it carried in the choice; a core with its deposit and its part of
 * the tax that the line carried. Everything is computed on the amounts that were charged and then negated, and a part is
 * rounded over all that has come back so far: so whatever the order and the rounding of tax, giving back everything
 * returns exactly what was charged, and the tax to the cent.
 */
export function creditFor(
  charged: ChoiceInput,
  back: GivenBack,
  before: GivenBack = NOTHING_BACK,
): Result<Credit, CreditFault> {
  const checked = checkChoice(charged);
  if (!checked.ok) return checked;
  const chosen = new Set(charged.chosen);
  const prepared = prepareEstimate(charged);
  const set = priceSet(
    prepared,
    prepared.lines.filter(({ line }) => chosen.has(line.id)),
  );
  const all = backTogether(before, back);
  const fields = backFaults(set, back, all);
  if (fields.length > 0) {
    return fail('back-impossible', 'More would be given back than was charged.', { fields });
  }
  const returned = (at: number, what: GivenBack): Figures => {
    const priced = set.lines[at];
    const isWhole = priced !== undefined && what.lineIds.includes(priced.prepared.line.id);
    return isWhole ? priced.figures : coresOf(set, at, what);
  };
  const lines = set.lines.flatMap(
    (
      {
        prepared: {
          line: { id },
        },
      },
      at,
    ): CreditedLine[] => {
      const isWhole = back.lineIds.includes(id);
      if (!isWhole && !back.cores.some(({ lineId }) => lineId === id)) return [];
      return [{ id, isWhole, figures: figuresLess(returned(at, before), returned(at, all)) }];
    },
  );
  const noTax: Figures = {
    ...NO_FIGURES,
    taxes: set.taxes.map(({ rule }) => ({ name: rule.name, cents: cents(0) })),
  };
  const totals = lines.reduce(
    (sum, { figures }) => figuresLess(sum, figuresLess(NO_FIGURES, figures)),
    noTax,
  );
  return ok({ lines, totals, breakdown: explainCredit(lines) });
}
