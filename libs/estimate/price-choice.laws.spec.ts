import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { labourCents } from '#libs/labour';
import { addToAgreed } from './add-to-agreed.js';
import { NOTHING_AGREED } from './already-agreed.js';
import { SUM } from './breakdown.js';
import type { Breakdown } from './breakdown.js';
import type { ChoiceInput } from './check-choice.js';
import type { ChoicePrice, ChosenLinePrice, Figures } from './choice-price.js';
import { ITEM_KINDS } from './estimate-line.js';
import type { EstimateLine } from './estimate-line.js';
import { pairKey } from './pair-key.js';
import { priceChoice } from './price-choice.js';
import type { PricingPolicy, TaxKind } from './pricing-policy.js';

const COMPONENTS = [
  'hundredths',
  'labourCents',
  'partsCents',
  'coreCents',
  'suppliesCents',
  'taxCents',
  'totalCents',
] as const;
const TAX_KINDS: readonly TaxKind[] = ['labour', ...ITEM_KINDS, 'supplies'];

// A shop's steps: a few pairs that many lines use, each with hours of its own.
const POOL = Array.from({ length: 9 }, (_, at) => ({
  step: `step ${at % 5}`,
  position: at < 5 ? 'engine' : 'front',
}));
const HOURS = fc.array(fc.oneof(fc.nat(250), fc.constantFrom(0, 1, 10, 33)), { minLength: 9, maxLength: 9 });

const aRate = fc.oneof(fc.constant(0), fc.integer({ min: 100, max: 25_000 }));
const someRates = fc.oneof(
  aRate.map((rate) => [rate]),
  fc.array(aRate, { minLength: 2, maxLength: 3 }),
);

const anItem = fc.record({
  id: fc.uuid(),
  kind: fc.constantFrom(...ITEM_KINDS),
  quantityHundredths: fc.nat(500),
  unitPriceCents: fc.nat(60_000).map(cents),
  coreCents: fc.option(fc.nat(9000).map(cents), { nil: undefined }),
});

const aPolicy: fc.Arbitrary<PricingPolicy> = fc.record({
  taxes: fc
    .array(fc.record({ ratePpm: fc.nat(250_000).map(ppm), on: fc.subarray([...TAX_KINDS]) }), {
      maxLength: 3,
    })
    .map((taxes) => taxes.map((tax, at) => ({ name: `tax ${at}`, ...tax }))),
  taxRounding: fc.constantFrom('line', 'invoice'),
  supplies: fc.option(
    fc.record({
      ratePpm: fc.nat(200_000).map(ppm),
      floorCents: fc.constantFrom(0, 500, 2000).map(cents),
      capCents: fc.option(fc.constantFrom(100, 3500, 9000).map(cents), { nil: null }),
    }),
    { nil: null },
  ),
});

const given = fc.oneof(
  fc.constant(NOTHING_AGREED),
  fc.record({
    // All of a step, or some hundredths of it.
    steps: fc.subarray(POOL).chain((pairs) =>
      fc.tuple(
        ...pairs.map((pair) =>
          fc.option(fc.nat(150), { nil: undefined }).map((part) => ({
            ...pair,
            ...(part === undefined ? {} : { hundredths: bookHundredths(part) }),
          })),
        ),
      ),
    ),
    labourCents: fc.nat(80_000).map(cents),
    suppliesCents: fc.nat(5000).map(cents),
  }),
);

const someLines = fc.tuple(HOURS, someRates, fc.integer({ min: 1, max: 6 })).chain(([hours, rates, count]) =>
  fc.tuple(
    ...Array.from({ length: count }, (_, index): fc.Arbitrary<EstimateLine> =>
      fc.record({
        // Ids against the order of the list, so that nothing leans on it.
        id: fc.constant(`line ${9 - index}`),
        steps: fc.subarray([...POOL.keys()]).map((used) =>
          used.map((at) => ({
            ...(POOL[at] as (typeof POOL)[number]),
            hundredths: bookHundredths(hours[at] ?? 0),
          })),
        ),
        rateId: fc.constant('any'),
        rateCentsPerHour: fc.constantFrom(...rates).map(cents),
        items: fc.array(anItem, { maxLength: 3 }),
      }),
    ),
  ),
);

const aChoice: fc.Arbitrary<ChoiceInput> = fc
  .tuple(someLines, given, aPolicy)
  .chain(([lines, agreed, policy]) =>
    fc.record({
      lines: fc.constant(lines),
      chosen: fc.subarray(lines.map(({ id }) => id)),
      given: fc.constant(agreed),
      policy: fc.constant(policy),
    }),
  );

const priced = (input: ChoiceInput): ChoicePrice => {
  const result = priceChoice(input);
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const chosenOf = (price: ChoicePrice): ChosenLinePrice[] => price.lines.filter((line) => line.chosen);
const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);
const amountOf = (node: Breakdown): number => ('cents' in node ? node.cents : node.hundredths);
const classesOf = (price: ChoicePrice): readonly Breakdown[] =>
  price.totals.breakdown.inputs[0]?.inputs ?? [];
const ratesOf = (input: ChoiceInput): number =>
  new Set(input.lines.map((line) => line.rateCentsPerHour)).size;
const law = (check: (input: ChoiceInput) => void, numRuns = 400): void =>
  fc.assert(fc.property(aChoice, check), { numRuns });

/** The nodes that say that they are a sum and are not. */
function wrongSums(node: Breakdown): Breakdown[] {
  const isWrong = node.rule === SUM && sum(node.inputs.map(amountOf)) !== amountOf(node);
  return [...(isWrong ? [node] : []), ...node.inputs.flatMap(wrongSums)];
}

describe('the price of a choice', () => {
  it('is the sum of its lines in every figure and for every tax, under every policy', () => {
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
      const parts = all.map((one) => [
        one.labourCents + one.partsCents + one.coreCents + one.suppliesCents + one.taxCents,
        sum(one.taxes.map((tax) => tax.cents)),
      ]);
      expect(parts).toEqual(all.map((one) => [one.totalCents, one.taxCents]));
      expect(all.every((one) => COMPONENTS.every((component) => one[component] >= 0))).toBe(true);
    }, 600);
  });

  it('sells every step once that is chosen and not agreed to yet', () => {
    law((input) => {
      const price = priced(input);
      const paid = new Map(input.given.steps.map((pair) => [pairKey(pair), pair.hundredths ?? Infinity]));
      const union = (lines: readonly EstimateLine[]): number => {
        const steps = new Map(
          lines.flatMap((line) => line.steps).map((step) => [pairKey(step), step.hundredths]),
        );
        return sum([...steps].map(([key, hours]) => Math.max(0, hours - (paid.get(key) ?? 0))));
      };
      expect(price.totals.hundredths).toBe(union(input.lines.filter(({ id }) => input.chosen.includes(id))));
      price.lines.forEach((line, at) => {
        expect(line.aloneHundredths).toBe(union(input.lines.slice(at, at + 1)));
        if (line.chosen) expect(line.hundredths).toBeLessThanOrEqual(line.aloneHundredths);
      });
    });
  });

  it('does not depend on the order of the lines, of their steps or of the choices', () => {
    law((input) => {
      const price = priced(input);
      const turned = priced({
        ...input,
        lines: input.lines.map((line) => ({ ...line, steps: [...line.steps].reverse() })).reverse(),
        chosen: [...input.chosen].reverse(),
      });
      const figures = (from: ChoicePrice): unknown[] =>
        from.lines
          .map((line) => ({ ...line, breakdown: null }))
          .sort((left, right) => (left.id < right.id ? -1 : 1));
      expect(figures(turned)).toEqual(figures(price));
      expect({ ...turned.totals, breakdown: null }).toEqual({ ...price.totals, breakdown: null });
    });
  });

  it('says for every line what it costs alone, and for every other line what it adds', () => {
    law((input) => {
      const price = priced(input);
      for (const line of price.lines) {
        const alone = priced({ ...input, chosen: [line.id] }).totals;
        expect({ ...line.alone, breakdown: alone.breakdown }).toEqual(alone);
        expect([line.aloneTotalCents, line.aloneHundredths]).toEqual([alone.totalCents, alone.hundredths]);
        if (line.chosen) continue;
        const wider = priced({ ...input, chosen: [...input.chosen, line.id] }).totals;
        expect(line.ifAddedCents).toBe(wider.totalCents - price.totals.totalCents);
        expect(line.ifAddedHundredths).toBe(wider.hundredths - price.totals.hundredths);
      }
    }, 300);
  });

  it('explains every figure down to what was entered', () => {
    law((input) => {
      const price = priced(input);
      for (const figures of [price.totals, ...chosenOf(price)]) {
        const { breakdown } = figures;
        expect(wrongSums(breakdown)).toEqual([]);
        expect(amountOf(breakdown)).toBe(figures.totalCents);
        expect(breakdown.inputs.map(amountOf)).toEqual([
          figures.labourCents,
          figures.partsCents,
          figures.coreCents,
          figures.suppliesCents,
          figures.taxCents,
        ]);
      }
    });
  });

  it('prices each class of labour once', () => {
    law((input) => {
      const rates = new Set(input.lines.map((line) => line.rateCentsPerHour));
      for (const node of classesOf(priced(input))) {
        const hours = bookHundredths(amountOf(node.inputs[0] as Breakdown));
        expect([...rates].map((rate) => labourCents(hours, rate))).toContain(amountOf(node));
      }
    }, 300);
  });
});

/**
 * How far rounding may pull the total down when a line is added. Each class of labour is rounded by up to half a cent
 * before and after; supplies and invoice tax follow by their rates and one rounding more; tax by line is rounded by up to
 * half a cent for each line and tax before and after. With one rate labour is a rounded monotone product and cannot fall.
 */
function bend(input: ChoiceInput, before: ChoicePrice, after: ChoicePrice): number {
  const labour = ratesOf(input) === 1 ? 0 : (classesOf(before).length + classesOf(after).length) / 2;
  const { supplies, taxes, taxRounding } = input.policy;
  const follow = (rate: number, base: number): number => (base === 0 ? 0 : (rate / 1_000_000) * base + 1);
  const supply = supplies === null ? 0 : follow(supplies.ratePpm, labour);
  const lines = (chosenOf(before).length + chosenOf(after).length) / 2;
  const tax = sum(
    taxes.map(({ ratePpm }) => {
      const byBase = follow(ratePpm, labour + supply);
      return taxRounding === 'line' ? byBase + lines : byBase;
    }),
  );
  return labour + supply + tax;
}

describe('adding a line to a choice', () => {
  it('never lowers hours, parts or core deposits, and the total by no more than rounding', () => {
    law((input) => {
      const before = priced(input);
      for (const line of before.lines) {
        if (line.chosen) continue;
        const after = priced({ ...input, chosen: [...input.chosen, line.id] });
        for (const component of ['hundredths', 'partsCents', 'coreCents'] as const) {
          expect(after.totals[component]).toBeGreaterThanOrEqual(before.totals[component]);
        }
        expect(line.ifAddedCents).toBeGreaterThanOrEqual(-bend(input, before, after));
      }
    }, 600);
  });

  it('never lowers the total at all with one labour rate and tax by invoice', () => {
    law((input) => {
      const rate = input.lines[0]?.rateCentsPerHour ?? cents(0);
      const plain: ChoiceInput = {
        ...input,
        lines: input.lines.map((line) => ({ ...line, rateCentsPerHour: rate })),
        policy: { ...input.policy, taxRounding: 'invoice' },
      };
      for (const line of priced(plain).lines) {
        if (!line.chosen) expect(line.ifAddedCents).toBeGreaterThanOrEqual(0);
      }
    });
  });

  it('never adds more than the line costs alone when nothing was agreed before, rounding apart', () => {
    law((input) => {
      const fresh: ChoiceInput = { ...input, given: NOTHING_AGREED };
      const before = priced(fresh);
      for (const line of before.lines) {
        if (line.chosen) continue;
        const after = priced({ ...fresh, chosen: [...fresh.chosen, line.id] });
        // The same roundings as above, and those of the line alone.
        const rounding = bend({ ...fresh, lines: [...fresh.lines, ...fresh.lines] }, before, after);
        const alone = 2 + 2 * fresh.policy.taxes.length;
        expect(line.ifAddedCents).toBeLessThanOrEqual(
          line.aloneTotalCents + rounding + alone + ratesOf(fresh),
        );
      }
    });
  });
});

describe('sharing', () => {
  it('never lets a line carry more labour than alone, but for a cent in each class of labour', () => {
    law((input) => {
      for (const line of chosenOf(priced(input))) {
        expect(line.labourCents).toBeLessThanOrEqual(line.alone.labourCents + ratesOf(input));
        expect(line.partsCents).toBe(line.alone.partsCents);
        expect(line.coreCents).toBe(line.alone.coreCents);
      }
    }, 600);
  });

  it('never lets a line carry more supplies or tax than alone, but for cents, when nothing was agreed before', () => {
    law((input) => {
      const fresh: ChoiceInput = { ...input, given: NOTHING_AGREED };
      const labour = ratesOf(fresh);
      for (const line of chosenOf(priced(fresh))) {
        // One cent from placing, one from rounding, and what the cents of labour bring along.
        const supplies = fresh.policy.supplies === null ? 0 : 2 + labour;
        const taxes = sum(
          fresh.policy.taxes.map(({ ratePpm }) => 2 + (ratePpm / 1_000_000) * (labour + supplies)),
        );
        expect(line.suppliesCents).toBeLessThanOrEqual(line.alone.suppliesCents + supplies);
        expect(line.taxCents).toBeLessThanOrEqual(line.alone.taxCents + taxes);
        expect(line.totalCents).toBeLessThanOrEqual(line.aloneTotalCents + labour + supplies + taxes);
      }
    });
  });

  it('never lets a group of lines pay more for labour than the group would alone, rounding of hours apart', () => {
    fc.assert(
      fc.property(aChoice, fc.infiniteStream(fc.boolean()), (input, coin) => {
        const group = input.chosen.filter(() => coin.next().value === true);
        const whole = chosenOf(priced(input)).filter(({ id }) => group.includes(id));
        const apart = priced({ ...input, chosen: group }).totals;
        // A share is rounded to a hundredth of an hour at each rate: less than one hundredth at the dearest, and a cent.
        const rate = Math.max(...input.lines.map((line) => line.rateCentsPerHour));
        const slack = group.length * ratesOf(input) * (rate / 100 + 1) + ratesOf(input);
        expect(sum(whole.map((line) => line.hundredths))).toBeLessThanOrEqual(
          apart.hundredths + group.length * ratesOf(input),
        );
        expect(sum(whole.map((line) => line.labourCents))).toBeLessThanOrEqual(apart.labourCents + slack);
      }),
      { numRuns: 400 },
    );
  });
});

describe('agreeing in two steps', () => {
  it('sells the same hours as agreeing at once, and every further yes costs what it adds', () => {
    fc.assert(
      fc.property(aChoice, fc.infiniteStream(fc.boolean()), (input, coin) => {
        const first = input.chosen.filter(() => coin.next().value === true);
        const second = input.chosen.filter((id) => !first.includes(id));
        const one = priced({ ...input, chosen: first });
        const agreed = addToAgreed(input.given, input.lines, one);
        const two = priced({ ...input, chosen: second, given: agreed });
        const atOnce = priced(input).totals;
        expect(one.totals.hundredths + two.totals.hundredths).toBe(atOnce.hundredths);
        expect(one.totals.partsCents + two.totals.partsCents).toBe(atOnce.partsCents);
        const both = addToAgreed(agreed, input.lines, two);
        expect(both.labourCents - input.given.labourCents).toBe(
          one.totals.labourCents + two.totals.labourCents,
        );
        if (ratesOf(input) === 1) {
          const apart = one.totals.labourCents + two.totals.labourCents;
          expect(Math.abs(apart - atOnce.labourCents)).toBeLessThanOrEqual(1);
        }
        // All agreed: nothing of it costs labour again.
        const again = priced({ ...input, given: both }).totals;
        expect([again.hundredths, again.labourCents, again.suppliesCents]).toEqual([0, 0, 0]);
      }),
      { numRuns: 400 },
    );
  });
});
