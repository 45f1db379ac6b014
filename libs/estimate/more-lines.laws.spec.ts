import fc from 'fast-check';
import { anyChoice } from '../../test/support/any-estimate.js';
import { NOTHING_AGREED } from './already-agreed.js';
import type { ChoiceInput } from './check-choice.js';
import type { ChoicePrice, ChosenLinePrice } from './choice-price.js';
import { effectiveRate } from './effective-rate.js';
import { itemsOfLine } from './items-of-line.js';
import { priceChoice } from './price-choice.js';

const priced = (input: ChoiceInput): ChoicePrice => {
  const result = priceChoice(input);
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const chosenOf = (price: ChoicePrice): ChosenLinePrice[] => price.lines.filter((line) => line.chosen);
const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);
const law = (check: (input: ChoiceInput) => void, numRuns: number): void =>
  fc.assert(fc.property(anyChoice(), check), { numRuns });
const ratesOf = ({ lines }: ChoiceInput): number =>
  new Set(lines.flatMap((line) => line.steps.map((step) => effectiveRate(line, step)))).size;

/**
 * How far rounding may pull the total down when a line is added. With one effective rate labour cannot fall; with
 * several, each class is rounded by up to half a cent before and after. An amount off the order is placed on labour,
 * parts, fluids and sublet in whole cents, so that each may be up to a cent beside its exact part before and after; the sum of
 * the four cannot fall. Supplies and taxes follow by their rates and roundings of their own.
 */
function bend(input: ChoiceInput, before: ChoicePrice, after: ChoicePrice): number {
  const { supplies, taxes, taxRounding } = input.policy;
  const labour = ratesOf(input) === 1 ? 0 : ratesOf(input);
  const placed = input.orderDiscount?.cents === undefined ? 0 : 8;
  const follow = (rate: number, base: number): number => (base === 0 ? 0 : (rate / 1_000_000) * base + 1);
  const supply = supplies === null ? 0 : follow(supplies.ratePpm, labour + placed);
  const lines = (chosenOf(before).length + chosenOf(after).length) / 2;
  const tax = sum(
    taxes.map(({ ratePpm }) => {
      const byBase = follow(ratePpm, labour + placed + supply);
      return taxRounding === 'line' ? byBase + lines : byBase;
    }),
  );
  return labour + supply + tax;
}

describe('adding a line under every term', () => {
  it('never lowers parts before an amount off the order, and the total by no more than rounding', () => {
    law((input) => {
      const before = priced(input);
      for (const line of before.lines) {
        if (line.chosen) continue;
        const after = priced({ ...input, chosen: [...input.chosen, line.id] });
        expect(after.totals.coreCents).toBeGreaterThanOrEqual(before.totals.coreCents);
        expect(line.ifAddedCents).toBeGreaterThanOrEqual(-bend(input, before, after));
      }
    }, 800);
  });

  it('never lowers the hours, where packages do not overlap or all labour has one rate', () => {
    law((input) => {
      if (ratesOf(input) > 1 && (input.packages ?? []).length > 1) return;
      for (const line of priced(input).lines)
        if (!line.chosen) expect(line.ifAddedHundredths).toBeGreaterThanOrEqual(0);
    }, 400);
  });

  it('adds no more hours to a larger choice than to a smaller one, without packages', () => {
    fc.assert(
      fc.property(anyChoice(), fc.infiniteStream(fc.boolean()), (drawn, coin) => {
        const input = { ...drawn, packages: undefined };
        const fewer = input.chosen.filter(() => coin.next().value === true);
        const small = priced({ ...input, chosen: fewer }).lines;
        priced(input).lines.forEach((line, at) => {
          const own = small[at];
          if (line.chosen || own === undefined || own.chosen) return;
          expect(line.ifAddedHundredths).toBeLessThanOrEqual(own.ifAddedHundredths);
        });
      }),
      { numRuns: 300 },
    );
  });
});

describe('a line among others under every term', () => {
  it('carries no more hours and labour than alone, but for a cent in each class, before an amount off the order', () => {
    law((input) => {
      const rates = ratesOf(input);
      for (const line of chosenOf(priced({ ...input, orderDiscount: undefined }))) {
        expect(line.hundredths).toBeLessThanOrEqual(line.aloneHundredths);
        expect(line.labourCents).toBeLessThanOrEqual(line.alone.labourCents + rates);
        expect([line.partsCents, line.coreCents]).toEqual([line.alone.partsCents, line.alone.coreCents]);
      }
    }, 500);
  });

  it('costs no more than alone but for cents', () => {
    law((drawn) => {
      const input = { ...drawn, given: NOTHING_AGREED };
      const rates = ratesOf(input);
      for (const line of chosenOf(priced(input))) {
        const { supplies, taxes } = input.policy;
        // One cent from placing and one from rounding for each figure, and what the cents of labour bring along.
        const supply = supplies === null ? 0 : 2 + rates;
        const tax = sum(taxes.map(({ ratePpm }) => 2 + (ratePpm / 1_000_000) * (rates + supply)));
        expect(line.totalCents).toBeLessThanOrEqual(line.aloneTotalCents + rates + supply + tax);
      }
    }, 500);
  });
});

describe('a discount', () => {
  it('of the order by amount is given once, over what it may reduce, and never above that', () => {
    law((input) => {
      const price = priced(input);
      const amount = input.orderDiscount?.cents;
      const off = sum(chosenOf(price).map((line) => line.orderDiscountCents));
      if (amount === undefined) {
        expect(off).toBe(0);
        return;
      }
      const before = priced({ ...input, orderDiscount: undefined });
      const fees = sum(
        input.lines
          .filter(({ id }) => input.chosen.includes(id))
          .flatMap((line) => itemsOfLine(line).items)
          .map(({ item, cents: price_ }) => (item.kind === 'fee' ? price_ : 0)),
      );
      const reducible = before.totals.labourCents + before.totals.partsCents - fees;
      const open = Math.max(0, amount - (input.given.orderDiscountCents ?? 0));
      expect(off).toBe(Math.min(open, reducible));
      expect(before.totals.labourCents + before.totals.partsCents - off).toBe(
        price.totals.labourCents + price.totals.partsCents,
      );
      expect(price.totals.partsCents).toBeGreaterThanOrEqual(fees);
      expect(price.totals.coreCents).toBe(before.totals.coreCents);
    }, 500);
  });

  it('never makes a line dearer than without it, cents of rounding apart', () => {
    law((input) => {
      const without = priced({
        ...input,
        orderDiscount: undefined,
        lines: input.lines.map((line) => ({ ...line, discount: null, noCharge: null })),
      });
      const { totals } = priced(input);
      expect(totals.labourCents).toBeLessThanOrEqual(without.totals.labourCents + ratesOf(input));
      expect(totals.partsCents).toBeLessThanOrEqual(without.totals.partsCents);
      // Packages may differ, because they save the cheapest labour first: hours are compared without them.
      const hours = (terms: ChoiceInput): number => priced({ ...terms, packages: [] }).totals.hundredths;
      const bare = input.lines.map((line) => ({ ...line, discount: null, noCharge: null }));
      expect(hours(input)).toBe(hours({ ...input, lines: bare }));
    }, 300);
  });
});
