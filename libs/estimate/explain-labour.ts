import { bookHundredths, cents, ppm } from '#libs/kernel';
import { formatCents, formatDecimal } from '#libs/money';
import { SUM } from './breakdown.js';
import type { Breakdown } from './breakdown.js';
import { effectiveRate, MILLION, nominalRate } from './effective-rate.js';
import type { EstimateLine } from './estimate-line.js';
import { explainAmountOff, sumOf } from './explain.js';
import type { ClassMember, LabourClass, LabourOfChoice } from './labour-of-choice.js';
import { pairKey } from './pair-key.js';
import { hoursText, percentText } from './plain-text.js';
import type { PreparedEstimate } from './prepare-estimate.js';
import type { PreparedPackage } from './prepare-packages.js';
import type { PricedLine, PricedSet } from './price-set.js';

interface Telling {
  readonly prepared: PreparedEstimate;
  readonly labour: LabourOfChoice;
}

/** A rate as people read it, exactly: with two decimals, or as many as it has. */
export function rateText(rateMillionths: number, keepPpm: number): string {
  const text = formatDecimal({ units: BigInt(rateMillionths) * BigInt(keepPpm), scale: 14 });
  const [whole = '0', fraction = ''] = text.split('.');
  const grouped = whole.replace(/\B(?=(?:\d{3})+$)/g, ',');
  return `${grouped}.${fraction.replace(/0+$/, '').padEnd(2, '0')} per hour`;
}

/** Why a rate is not the line's or the step's own; one node for each rate that comes down to it. */
function explainRate({ rate, members }: LabourClass, { prepared }: Telling): Breakdown[] {
  const { keepPpm, terms, rates } = prepared;
  const seen = new Map<string, Breakdown>();
  for (const { line, steps } of members) {
    const off = offWords(line.line, keepPpm, terms.orderDiscount?.reason);
    if (off.length === 0) continue;
    const sold = new Set(
      steps.filter((number) => rates[line.ranks[line.steps.indexOf(number)] ?? -1] === rate),
    );
    const keys = new Set([...sold].map((number) => pairKeyOf(prepared, number)));
    for (const step of line.line.steps) {
      if (!keys.has(pairKey(step)) || effectiveRate(line.line, step) !== rate) continue;
      const nominal = nominalRate(line.line, step);
      const rule = `${formatCents(cents(nominal))} per hour, ${off.join(', ')}`;
      seen.set(rule, {
        figure: 'rate',
        of: rateText(rate, keepPpm),
        cents: cents(nominal),
        rule,
        inputs: [],
      });
    }
  }
  return [...seen.values()];
}

const pairKeyOf = ({ steps }: PreparedEstimate, number: number): string =>
  pairKey(steps[number] ?? { step: '', position: '' });

const NO_CHARGE_WORDS = { warranty: 'warranty', goodwill: 'goodwill', comeback: 'comeback' };

function offWords({ noCharge, discount }: EstimateLine, keepPpm: number, reason?: string): string[] {
  if (noCharge != null) return [`no charge: ${NO_CHARGE_WORDS[noCharge]}`];
  const own = discount?.labourPpm ?? ppm(0);
  const order = ppm(MILLION - keepPpm);
  return [
    own > 0 ? `less ${percentText(own)}: ${discount?.reason ?? ''}` : '',
    order > 0 ? `less ${percentText(order)} off the order${reason === undefined ? '' : `: ${reason}`}` : '',
  ].filter((text) => text !== '');
}

function explainStep(number: number, count: number, { prepared, labour }: Telling): Breakdown {
  const step = prepared.steps[number];
  const sold = bookHundredths(labour.hoursOf(number));
  const left = bookHundredths(Math.max(0, step?.hundredths ?? 0));
  const under = sold === left ? '' : ` of ${hoursText(left)}, scaled to the package`;
  return {
    figure: 'step',
    of: `${step?.step ?? ''}, ${step?.position ?? ''}`,
    hundredths: sold,
    rule: `book hours of the step${under}${count === 1 ? '' : `, shared by ${count} lines`}`,
    inputs: [],
  };
}

const add = (nodes: readonly Breakdown[]): number =>
  nodes.reduce((sum, node) => sum + ('hundredths' in node ? node.hundredths : 0), 0);

function explainPackage(own: PreparedPackage, steps: readonly Breakdown[], { labour }: Telling): Breakdown {
  const numbers = [...own.hours.keys()];
  const sold = numbers.reduce((sum, number) => sum + labour.hoursOf(number), 0);
  const part = add(steps) === sold ? '' : `, ${hoursText(bookHundredths(add(steps)))} of them at this rate`;
  return {
    figure: 'package',
    of: own.package.name,
    hundredths: bookHundredths(add(steps)),
    rule: `${hoursText(own.package.hundredths)} entered for exactly these lines; ${hoursText(bookHundredths(sold))} to be sold now${part}; what it saves comes off the cheapest labour first, in proportion to the steps`,
    inputs: steps,
  };
}

/** The distinct steps of some members, each with the number of lines that share it; those of a package under it. */
function explainSteps(members: readonly ClassMember[], telling: Telling, isWhole: boolean): Breakdown[] {
  const { labour } = telling;
  const nodes = new Map<number, Breakdown>();
  for (const number of members.flatMap(({ steps }) => steps))
    nodes.set(number, explainStep(number, labour.carriersOf(number), telling));
  if (!isWhole) return [...nodes.values()];
  const packaged = labour.packages.flatMap((own) => {
    const steps = [...nodes].filter(([number]) => own.hours.has(number));
    for (const [number] of steps) nodes.delete(number);
    return steps.length === 0
      ? []
      : [
          explainPackage(
            own,
            steps.map(([, node]) => node),
            telling,
          ),
        ];
  });
  return [...packaged, ...nodes.values()];
}

function explainClass(own: LabourClass, telling: Telling): Breakdown {
  const rate = rateText(own.rate, telling.prepared.keepPpm);
  return {
    figure: 'labour',
    of: rate,
    cents: own.cents,
    rule: `${hoursText(own.hundredths)} × ${rate}, rounded half up once`,
    inputs: [
      {
        figure: 'hours',
        hundredths: own.hundredths,
        rule: SUM,
        inputs: explainSteps(own.members, telling, true),
      },
      ...explainRate(own, telling),
    ],
  };
}

function explainMember(own: LabourClass, member: ClassMember, telling: Telling): Breakdown {
  const rate = rateText(own.rate, telling.prepared.keepPpm);
  const whole = `${formatCents(own.cents)} for ${hoursText(own.hundredths)} at ${rate}`;
  return {
    figure: 'labour',
    of: rate,
    cents: member.cents,
    rule: `this line's share of ${whole}; the odd cents go to the largest remainders`,
    inputs: [
      {
        figure: 'hours',
        hundredths: member.hundredths,
        rule: 'each step is split evenly among the lines that share it; whole hundredths by largest remainder',
        inputs: explainSteps([member], telling, false),
      },
      ...explainRate({ ...own, members: [member] }, telling),
    ],
  };
}

/** The labour of a choice by rate. */
export function explainLabour({ labour, lines }: PricedSet, prepared: PreparedEstimate): Breakdown {
  const telling = { prepared, labour };
  return sumOf('labour', [
    ...labour.classes.map((own) => explainClass(own, telling)),
    ...explainAmountOff('labour', lines, prepared.terms),
  ]);
}

/** One line's part of it. */
export function explainLineLabour(
  { labour }: PricedSet,
  line: PricedLine,
  prepared: PreparedEstimate,
): Breakdown {
  const telling = { prepared, labour };
  const own = labour.classes.flatMap((one) =>
    one.members
      .filter((member) => member.line === line.prepared)
      .map((member) => explainMember(one, member, telling)),
  );
  return sumOf('labour', [...own, ...explainAmountOff('labour', [line], prepared.terms)]);
}
