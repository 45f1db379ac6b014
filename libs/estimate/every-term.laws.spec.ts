import fc from 'fast-check';
import { anyChoice } from '../../test/support/any-estimate.js';
import type { ChoiceInput } from './check-choice.js';
import type { ChoicePrice, ChosenLinePrice, Figures } from './choice-price.js';
import { priceChoice } from './price-choice.js';
import { totalPricer } from './total-pricer.js';

const COMPONENTS = [
  'hundredths',
  'labourCents',
  'partsCents',
  'coreCents',
  'suppliesCents',
  'taxCents',
  'discountCents',
  'totalCents',
] as const;

const priced = (input: ChoiceInput): ChoicePrice => {
  const result = priceChoice(input);
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const chosenOf = (price: ChoicePrice): ChosenLinePrice[] => price.lines.filter((line) => line.chosen);
const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);
const law = (check: (input: ChoiceInput) => void, numRuns: number): void =>
  fc.assert(fc.property(anyChoice(), check), { numRuns });
const plain = (totals: ChoicePrice['totals']): Figures => {
  const { breakdown, ...figures } = totals;
  expect(breakdown.figure).toBe('total');
  return figures;
};

describe('a choice under every term', () => {
  it('is the sum of its lines in every figure and for every tax, and nothing in it is below zero', () => {
    law((input) => {
      const price = priced(input);
      const lines = chosenOf(price);
      const added = COMPONENTS.map((component) => sum(lines.map((line) => line[component])));
      expect(added).toEqual(COMPONENTS.map((component) => price.totals[component]));
      const taxes = price.totals.taxes.map((_, at) =>
        sum(lines.map((line) => line.taxes[at]?.cents ?? Number.NaN)),
      );
      expect(taxes).toEqual(price.totals.taxes.map((tax) => tax.cents));
      const all: Figures[] = [price.totals, ...lines, ...price.lines.map((line) => line.alone)];
      for (const one of all) {
        const parts = one.labourCents + one.partsCents + one.coreCents + one.suppliesCents + one.taxCents;
        expect([parts, sum(one.taxes.map((tax) => tax.cents))]).toEqual([one.totalCents, one.taxCents]);
        expect(COMPONENTS.filter((component) => one[component] < 0)).toEqual([]);
        expect(one.taxes.filter((tax) => tax.cents < 0)).toEqual([]);
      }
    }, 700);
  });

  it('does not depend on the order of lines, steps, choices, packages or of the lines of a package', () => {
    law((input) => {
      const turned = priced({
        ...input,
        lines: input.lines.map((line) => ({ ...line, steps: [...line.steps].reverse() })).reverse(),
        chosen: [...input.chosen].reverse(),
        packages: input.packages?.map((own) => ({ ...own, lineIds: [...own.lineIds].reverse() })).reverse(),
      });
      const figures = (from: ChoicePrice): unknown =>
        new Map(from.lines.map((line) => [line.id, { ...line, breakdown: null }]));
      const price = priced(input);
      expect(figures(turned)).toEqual(figures(price));
      expect(plain(turned.totals)).toEqual(plain(price.totals));
    }, 400);
  });

  it('says for every line what it costs alone, and for every other line what it adds', () => {
    law((input) => {
      const price = priced(input);
      for (const line of price.lines) {
        // An amount off the order is given once for all of it, and no line has it alone.
        const orderDiscount = input.orderDiscount?.cents === undefined ? input.orderDiscount : undefined;
        const alone = priced({ ...input, chosen: [line.id], orderDiscount }).totals;
        expect(line.alone).toEqual(plain(alone));
        if (line.chosen) continue;
        const wider = priced({ ...input, chosen: [...input.chosen, line.id] }).totals;
        expect([line.ifAddedCents, line.ifAddedHundredths]).toEqual([
          wider.totalCents - price.totals.totalCents,
          wider.hundredths - price.totals.hundredths,
        ]);
      }
    }, 300);
  });

  it('has the total that the quick pricer gives for it', () => {
    law((input) => {
      const total = totalPricer(input);
      if (!total.ok) throw new Error(total.fault.detail);
      for (const chosen of [input.chosen, input.lines.map(({ id }) => id), input.chosen.slice(1)]) {
        const lines = input.lines.filter(({ id }) => chosen.includes(id));
        expect(total.value(lines)).toBe(priced({ ...input, chosen }).totals.totalCents);
      }
    }, 1200);
  });
});
