import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { formatCents } from '#libs/money';
import { SUM } from './breakdown.js';
import type { Breakdown } from './breakdown.js';
import type { PricedItem } from './items-of-line.js';
import { pairKey } from './pair-key.js';
import { hoursText, percentText, quantityText } from './plain-text.js';
import type { ClassMember, LabourClass } from './labour-of-choice.js';
import type { PricedLine, PricedSet, PricingTerms } from './price-set.js';
import type { TaxOfChoice } from './taxes-of-choice.js';

/** A figure that is the sum of others. */
export function sumOf(figure: string, inputs: readonly Breakdown[], of?: string): Breakdown {
  const total = inputs.reduce((sum, input) => sum + ('cents' in input ? input.cents : 0), 0);
  return { figure, ...(of === undefined ? {} : { of }), cents: cents(total), rule: SUM, inputs };
}

const rateText = (labour: LabourClass): string => `${formatCents(labour.rateCentsPerHour)} per hour`;

/** The distinct steps of some members, each with the number of lines of the class that share it. */
export function explainSteps(members: readonly ClassMember[], all: readonly ClassMember[]): Breakdown[] {
  const users = new Map<string, number>();
  for (const { steps } of all) {
    for (const key of new Set(steps.map(pairKey))) users.set(key, (users.get(key) ?? 0) + 1);
  }
  const seen = new Map<string, Breakdown>();
  for (const step of members.flatMap(({ steps }) => steps)) {
    const count = users.get(pairKey(step)) ?? 1;
    seen.set(pairKey(step), {
      figure: 'step',
      of: `${step.step}, ${step.position}`,
      hundredths: step.hundredths,
      rule: count === 1 ? 'book hours of the step' : `book hours of the step, shared by ${count} lines`,
      inputs: [],
    });
  }
  return [...seen.values()];
}

export function explainClass(labour: LabourClass): Breakdown {
  return {
    figure: 'labour',
    of: rateText(labour),
    cents: labour.cents,
    rule: `${hoursText(labour.hundredths)} × ${rateText(labour)}, rounded half up once`,
    inputs: [
      {
        figure: 'hours',
        hundredths: labour.hundredths,
        rule: SUM,
        inputs: explainSteps(labour.members, labour.members),
      },
    ],
  };
}

export function explainMember(labour: LabourClass, member: ClassMember): Breakdown {
  const whole = `${formatCents(labour.cents)} for ${hoursText(labour.hundredths)} at ${rateText(labour)}`;
  return {
    figure: 'labour',
    of: rateText(labour),
    cents: member.cents,
    rule: `this line's share of ${whole}; the odd cents go to the largest remainders`,
    inputs: [
      {
        figure: 'hours',
        hundredths: member.hundredths,
        rule: 'each step is split evenly among the lines that share it; whole hundredths by largest remainder',
        inputs: explainSteps([member], labour.members),
      },
    ],
  };
}

const times = (item: PricedItem['item'], price: Cents): string =>
  `${quantityText(item.quantityHundredths)} × ${formatCents(price)}, rounded half up`;

export function explainItems(lines: readonly PricedLine[]): Breakdown {
  const priced = lines.flatMap(({ items }) => items.items);
  return sumOf(
    'parts',
    priced.map(({ item, cents: price }) => ({
      figure: item.kind,
      of: item.id,
      cents: price,
      rule: times(item, item.unitPriceCents),
      inputs: [],
    })),
  );
}

export function explainCores(lines: readonly PricedLine[]): Breakdown {
  const priced = lines.flatMap(({ items }) => items.items).filter(({ coreCents }) => coreCents !== 0);
  return sumOf(
    'core deposits',
    priced.map(({ item, coreCents }) => ({
      figure: 'core deposit',
      of: item.id,
      cents: coreCents,
      rule: `${times(item, item.coreCents ?? cents(0))}; paid back when the old part is returned`,
      inputs: [],
    })),
  );
}

/** The sentence for the supplies of a choice. */
export function suppliesRuleText({ totals }: PricedSet, { given, policy }: PricingTerms): string {
  if (policy.supplies === null) return 'this shop charges no supplies';
  if (totals.labourCents === 0) return 'no labour, no supplies';
  const { ratePpm, floorCents, capCents } = policy.supplies;
  const all = cents(totals.labourCents + given.labourCents);
  const bounds = [
    floorCents > 0 ? `at least ${formatCents(floorCents)}` : '',
    capCents === null ? '' : `at most ${formatCents(capCents)}`,
    given.suppliesCents > 0 ? `less ${formatCents(given.suppliesCents)} agreed before` : '',
  ].filter((text) => text !== '');
  return [`${percentText(ratePpm)} of all labour, ${formatCents(all)}`, ...bounds].join(', ');
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
