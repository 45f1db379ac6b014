import fc from 'fast-check';
import { anyChoice } from '../../test/support/any-estimate.js';
import { SUM } from './breakdown.js';
import type { Breakdown } from './breakdown.js';
import type { ChoiceInput } from './check-choice.js';
import type { ChoicePrice } from './choice-price.js';
import { priceChoice } from './price-choice.js';

/** Reads a tree as a person would: whatever a rule says must give the figure that stands beside it. */

const priced = (input: ChoiceInput): ChoicePrice => {
  const result = priceChoice(input);
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);
const amountOf = (node: Breakdown): number => ('cents' in node ? node.cents : node.hundredths);

/** A decimal in a rule, exactly: its digits, and how many of them stand after the point. */
function read(text: string): { units: bigint; scale: number } {
  const [whole = '0', fraction = ''] = text.replaceAll(',', '').split('.');
  return { units: BigInt(whole + fraction), scale: fraction.length };
}
const toCents = (text: string): number => Number(read(text).units);
function halfUp(units: bigint, scale: number): number {
  const den = 10n ** BigInt(scale);
  return Number((2n * units + den) / (2n * den));
}
/** Percent of an amount in cents, half up. */
const percentOf = (percent: string, amount: number): number => {
  const { units, scale } = read(percent);
  return halfUp(units * BigInt(amount), scale + 2);
};
const part = (match: RegExpExecArray | null, at: number): string => match?.[at] ?? '';

/** What a labour node, a rate, a price, a discount, supplies or a tax says that its figure is; null where it is of another kind. */
function labourSays(node: Breakdown): number | null {
  const match = /^([\d.,]+) h × ([\d.,]+) per hour, rounded half up once$/.exec(node.rule);
  if (match === null) return null;
  expect(amountOf(node.inputs[0] as Breakdown)).toBe(toCents(part(match, 1)));
  const [hours, rate] = [read(part(match, 1)), read(part(match, 2))];
  // Hours have two decimals, a rate at least two: in cents that is two less.
  return halfUp(hours.units * rate.units, hours.scale + rate.scale - 2);
}

/** A rate under discounts: the nominal one less its percentages is the one that it is a reason for. */
function rateSays(node: Breakdown): string | null {
  if (node.figure !== 'rate') return null;
  const nominal = /^([\d.,]+) per hour/.exec(node.rule);
  expect(toCents(part(nominal, 1))).toBe(amountOf(node));
  if (node.rule.includes('no charge')) return '0.00 per hour';
  let { units, scale } = read(part(nominal, 1));
  for (const [, percent = '0'] of node.rule.matchAll(/less ([\d.]+) %/g)) {
    const own = read(percent);
    units *= 10n ** BigInt(own.scale + 2) - own.units;
    scale += own.scale + 2;
  }
  const digits = units.toString().padStart(scale + 1, '0');
  const fraction = digits
    .slice(digits.length - scale)
    .replace(/0+$/, '')
    .padEnd(2, '0');
  return `${digits.slice(0, digits.length - scale)}.${fraction} per hour`;
}

function priceSays({ rule }: Breakdown): number | null {
  const match = /^([\d.,]+) × ([\d.,]+), rounded half up/.exec(rule);
  if (match === null) return null;
  const quantity = read(part(match, 1));
  return halfUp(quantity.units * read(part(match, 2)).units, quantity.scale);
}

const OFF =
  /^(?:([\d.]+) %)?(?: and then )?([\d.,]+)? off the line's parts, fluids and sublet of ([\d.,]+), in all ([\d.,]+),/;

/** Discounts of items: what is off in all follows from the percentage, the amount and the price. */
function checkDiscount({ rule }: Breakdown): void {
  const match = OFF.exec(rule);
  if (match === null) return;
  const whole = toCents(part(match, 3));
  const rated = part(match, 1) === '' ? 0 : percentOf(part(match, 1), whole);
  const amount = part(match, 2) === '' ? 0 : toCents(part(match, 2));
  expect(toCents(part(match, 4))).toBe(rated + Math.min(whole - rated, amount));
}

function suppliesSay(node: Breakdown): number | null {
  const match =
    /^([\d.]+) % of all [a-z, ]+, ([\d.,]+?)(?:, at least ([\d.,]+?))?(?:, at most ([\d.,]+?))?(?:, less ([\d.,]+) agreed before)?$/.exec(
      node.rule,
    );
  if (node.figure !== 'supplies' || match === null) return null;
  const base = toCents(part(match, 2));
  expect(sum(node.inputs.map(amountOf))).toBe(base);
  const raised = Math.max(percentOf(part(match, 1), base), toCents(part(match, 3) || '0'));
  const charge = part(match, 4) === '' ? raised : Math.min(raised, toCents(part(match, 4)));
  return Math.max(0, charge - toCents(part(match, 5) || '0'));
}

function taxSays({ figure, rule, inputs }: Breakdown): number | null {
  const match = /^([\d.]+) % of ([\d.,]+), rounded half up/.exec(rule);
  if (figure !== 'tax' || match === null) return null;
  const base = toCents(part(match, 2));
  if (inputs[0] !== undefined) expect(amountOf(inputs[0])).toBe(base);
  return percentOf(part(match, 1), base);
}

/** Taxes that were rounded together: the whole follows from all of them, and each is within a cent of its own. */
function checkTogether(taxes: readonly Breakdown[]): void {
  const read_ = taxes.map(({ rule }) =>
    /^([\d.]+) % of ([\d.,]+); all taxes together are ([\d.,]+), rounded half up once/.exec(rule),
  );
  if (taxes.length === 0 || read_.some((match) => match === null)) return;
  const exact = read_.map((match) => {
    const { units, scale } = read(part(match, 1));
    return units * 10n ** BigInt(4 - scale) * BigInt(toCents(part(match, 2)));
  });
  const whole = halfUp(
    exact.reduce((total, one) => total + one, 0n),
    6,
  );
  expect(read_.map((match) => toCents(part(match, 3)))).toEqual(taxes.map(() => whole));
  expect(sum(taxes.map(amountOf))).toBe(whole);
  taxes.forEach((tax, at) => {
    expect(Math.abs(amountOf(tax) - Number(exact[at]) / 1_000_000)).toBeLessThan(1);
  });
}

function checkPackage(node: Breakdown): void {
  if (node.figure !== 'package') return;
  expect(sum(node.inputs.map(amountOf))).toBe(amountOf(node));
  const match =
    /^([\d.,]+) h entered for exactly these lines; ([\d.,]+) h to be sold now(?:, ([\d.,]+) h of them at this rate)?;/.exec(
      node.rule,
    );
  expect(toCents(part(match, 3) || part(match, 2))).toBe(amountOf(node));
  expect(toCents(part(match, 2))).toBeLessThanOrEqual(toCents(part(match, 1)));
}

function check(node: Breakdown, kinds: Set<string>): void {
  kinds.add(node.figure);
  if (node.rule === SUM) expect(sum(node.inputs.map(amountOf))).toBe(amountOf(node));
  const said = [labourSays(node), priceSays(node), suppliesSay(node), taxSays(node)].filter(
    (one) => one !== null,
  );
  expect(said).toEqual(said.map(() => amountOf(node)));
  const rate = rateSays(node);
  if (rate !== null) expect(node.of).toBe(rate);
  checkDiscount(node);
  checkPackage(node);
  if (node.figure === 'tax' && node.of === undefined)
    checkTogether(node.inputs.filter(({ figure }) => figure === 'tax'));
  for (const input of node.inputs) check(input, kinds);
}

const EXPLAINED = [
  'total',
  'labour',
  'hours',
  'package',
  'step',
  'rate',
  'parts',
  'price',
  'discount',
  'order discount',
  'core deposits',
  'supplies',
  'supplies base',
  'tax',
  'taxed amount',
];

describe('the explanation of a price under every term', () => {
  it('gives every figure from what stands below it', () => {
    const kinds = new Set<string>();
    fc.assert(
      fc.property(anyChoice(5), (input) => {
        const price = priced(input);
        const chosen = price.lines.filter((line) => line.chosen);
        for (const figures of [price.totals, ...chosen]) {
          check(figures.breakdown, kinds);
          expect(amountOf(figures.breakdown)).toBe(figures.totalCents);
          expect(figures.breakdown.inputs.map(amountOf)).toEqual([
            figures.labourCents,
            figures.partsCents,
            figures.coreCents,
            figures.suppliesCents,
            figures.taxCents,
          ]);
        }
        // What lines say they carry of a figure of the choice adds up to it: labour, discounts of the order, each tax.
        const parts = (tree: Breakdown, at: number): readonly Breakdown[] => tree.inputs[at]?.inputs ?? [];
        for (const at of [0, 1, 4]) {
          const own = chosen.flatMap((line) => parts(line.breakdown, at));
          const named = (nodes: readonly Breakdown[]): Map<string, number> => {
            const sums = new Map<string, number>();
            for (const node of nodes) {
              const key = `${node.figure} ${node.figure === 'order discount' ? '' : (node.of ?? '')}`;
              sums.set(key, (sums.get(key) ?? 0) + amountOf(node));
            }
            return new Map([...sums].filter(([, amount]) => amount !== 0).sort());
          };
          expect(named(own)).toEqual(named(parts(price.totals.breakdown, at)));
        }
      }),
      { numRuns: 800, seed: 7 },
    );
    expect(EXPLAINED.filter((figure) => !kinds.has(figure))).toEqual([]);
  });
});
