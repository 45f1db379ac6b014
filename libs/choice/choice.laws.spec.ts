import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { NO_CHARGES, packageRange, SUPPLIES_BASES } from '#libs/estimate';
import type { EstimateLine, LinePackage, PricingPolicy } from '#libs/estimate';
import { bestChoice } from './best-choice.js';
import type { BudgetProblem, ChoiceLine, ChoiceProblem, Effort } from './choice-problem.js';
import { estimatePrices } from './estimate-prices.js';
import type { EstimateTerms } from './estimate-prices.js';
import { ladder } from './ladder.js';
import { plainPrices, valueOf } from './plain-prices.js';

const EFFORT: Effort = { timeLimitMs: 1, now: () => 0, seed: 1 };

interface Named {
  readonly size: number;
  readonly steps: readonly number[];
  readonly lines: readonly {
    readonly benefit: number;
    readonly cents: number;
    readonly uses: readonly number[];
    readonly requires: readonly number[];
    readonly excludes: readonly number[];
    readonly must: boolean;
  }[];
}

const aCase = (most: number): fc.Arbitrary<Named> =>
  fc.integer({ min: 1, max: most }).chain((size) => {
    const few = fc.oneof(
      { weight: 5, arbitrary: fc.constant<number[]>([]) },
      fc.array(fc.nat(size - 1), { maxLength: 2 }),
    );
    return fc.record({
      size: fc.constant(size),
      steps: fc.array(fc.oneof(fc.nat(300), fc.constantFrom(0, 1, 100)), { minLength: 6, maxLength: 6 }),
      lines: fc.array(
        fc.record({
          benefit: fc.oneof(fc.nat(100), fc.nat(4)),
          cents: fc.oneof(fc.nat(300), fc.constant(0)),
          uses: fc.array(fc.nat(5), { maxLength: 4 }),
          requires: few,
          excludes: few,
          must: fc.nat(9).map((chance) => chance === 0),
        }),
        { minLength: size, maxLength: size },
      ),
    });
  });

const linesOf = ({ lines }: Named): ChoiceLine[] =>
  lines.map((line, at) => ({
    id: `line ${at}`,
    benefit: line.benefit,
    cents: cents(line.cents),
    steps: line.uses.map((step) => `step ${step}`),
    requires: line.requires.map((other) => `line ${other}`),
    excludes: line.excludes.filter((other) => other !== at).map((other) => `line ${other}`),
    mustInclude: line.must,
  }));

const plainProblem = (drawn: Named): ChoiceProblem => ({
  lines: linesOf(drawn),
  steps: drawn.steps.map((amount, at) => ({ id: `step ${at}`, cents: cents(amount) })),
});

const aPolicy: fc.Arbitrary<PricingPolicy> = fc.record({
  taxes: fc
    .array(
      fc.record({
        ratePpm: fc.nat(250_000).map(ppm),
        on: fc.subarray<'labour' | 'part' | 'supplies'>(['labour', 'part', 'supplies']),
      }),
      { maxLength: 2 },
    )
    .map((taxes) => taxes.map((tax, at) => ({ name: `tax ${at}`, ...tax }))),
  taxRounding: fc.constantFrom('line', 'invoice'),
  taxesCombined: fc.boolean(),
  supplies: fc.option(
    fc.record({
      ratePpm: fc.nat(200_000).map(ppm),
      floorCents: fc.constantFrom(0, 40, 500).map(cents),
      capCents: fc.option(fc.constantFrom(20, 60, 900).map(cents), { nil: null }),
      base: fc.constantFrom(undefined, ...SUPPLIES_BASES),
    }),
    { nil: null },
  ),
});

const PORTIONS = [0, 0, 0, 100_000, 333_333, 1_000_000] as const;
const aPortion = fc.constantFrom(...PORTIONS).map(ppm);

/** What a shop may set beside hours, parts and policy; most of it is not set. */
const someTerms = fc.record({
  orderDiscount: fc.oneof(
    { weight: 2, arbitrary: fc.constant(undefined) },
    fc.record({ labourPpm: aPortion, itemsPpm: aPortion }),
    fc.record({ cents: fc.oneof(fc.nat(60), fc.nat(3000)).map(cents) }),
  ),
  /** By line: what comes off it. */
  off: fc.array(
    fc.oneof(
      { weight: 4, arbitrary: fc.constant({}) },
      fc.record({ noCharge: fc.constantFrom(...NO_CHARGES) }),
      fc.record({
        discount: fc.record({
          labourPpm: aPortion,
          itemsPpm: aPortion,
          itemsCents: fc.nat(500).map(cents),
          reason: fc.constant('a regular'),
        }),
      }),
    ),
    { minLength: 16, maxLength: 16 },
  ),
  stepRates: fc.array(fc.constantFrom(undefined, undefined, undefined, 0, 12_000), {
    minLength: 16,
    maxLength: 16,
  }),
  packages: fc.oneof(
    { weight: 3, arbitrary: fc.constant([]) },
    fc.array(fc.record({ bits: fc.nat(2 ** 16 - 1), at: fc.nat(100) }), { minLength: 1, maxLength: 2 }),
  ),
});

/** Packages of some of these lines, with hours that they can have. */
function packagesOf(
  lines: readonly EstimateLine[],
  drawn: readonly { bits: number; at: number }[],
): LinePackage[] {
  return drawn.flatMap(({ bits, at }) => {
    const used = lines.filter((_, index) => (bits >> index) & 1);
    if (used.length < 2) return [];
    const { low, high } = packageRange(used);
    const hundredths = bookHundredths(low + Math.floor(((high - low) * at) / 100));
    return [{ name: `package ${bits}`, lineIds: used.map(({ id }) => id), hundredths }];
  });
}

/** The same lines with hours and parts instead of plain cents. */
const anEstimate = (drawn: Named): fc.Arbitrary<EstimateTerms> =>
  fc
    .record({
      rates: fc.array(fc.constantFrom(0, 900, 10_000, 13_333), {
        minLength: drawn.size,
        maxLength: drawn.size,
      }),
      given: fc.record({
        steps: fc.constantFrom([], [{ step: 'step 0', position: '' }]),
        labourCents: fc.constantFrom(0, 0, 5000).map(cents),
        suppliesCents: fc.constantFrom(0, 0, 70, 800).map(cents),
        orderDiscountCents: fc.constantFrom(undefined, undefined, cents(40)),
      }),
      policy: aPolicy,
      terms: someTerms,
    })
    .map(({ rates, given, policy, terms }) => {
      const lines = drawn.lines.map((line, at): EstimateLine => ({
        id: `line ${at}`,
        rateId: `rate ${rates[at]}`,
        rateCentsPerHour: cents(rates[at] ?? 0),
        steps: [...new Set(line.uses)].map((step, index) => {
          const own = index === 0 ? terms.stepRates[at] : undefined;
          return {
            step: `step ${step}`,
            position: '',
            hundredths: bookHundredths(drawn.steps[step] ?? 0),
            ...(own === undefined ? {} : { rateCentsPerHour: cents(own) }),
          };
        }),
        items: [
          { id: `part ${at}`, kind: 'part', quantityHundredths: 100, unitPriceCents: cents(line.cents * 7) },
        ],
        ...terms.off[at],
      }));
      const { orderDiscount } = terms;
      return { lines, given, policy, orderDiscount, packages: packagesOf(lines, terms.packages) };
    });

function estimateProblem(drawn: Named, terms: EstimateTerms): ChoiceProblem {
  const prices = estimatePrices(terms);
  if (!prices.ok) throw new Error(prices.fault.detail);
  return { lines: linesOf(drawn), prices: prices.value };
}

const aProblem = (most: number): fc.Arbitrary<ChoiceProblem> =>
  aCase(most).chain((drawn) =>
    fc.oneof(
      fc.constant(plainProblem(drawn)),
      anEstimate(drawn).map((terms) => estimateProblem(drawn, terms)),
    ),
  );

interface Seen {
  readonly price: number;
  readonly benefit: number;
}

/** Every set that the rules allow, straight from the words of the problem. */
function everySet({ lines, steps = [], prices = plainPrices(lines, steps) }: ChoiceProblem): Seen[] {
  const seen: Seen[] = [];
  for (let bits = 0; bits < 2 ** lines.length; bits++) {
    const chosen = lines.flatMap((_, at) => ((bits >> at) & 1 ? [at] : []));
    const names = new Set(chosen.map((at) => lines[at]?.id));
    const isAllowed = lines.every((line) =>
      names.has(line.id)
        ? (line.requires ?? []).every((id) => names.has(id)) &&
          !(line.excludes ?? []).some((id) => names.has(id))
        : line.mustInclude !== true,
    );
    if (!isAllowed) continue;
    const benefit = chosen.reduce((sum, at) => sum + (lines[at]?.benefit ?? 0), 0);
    seen.push({ price: prices.exact(chosen), benefit });
  }
  return seen;
}

/** The stairs of all sets: what beats everything that costs no more. */
function stairsOf(sets: readonly Seen[]): Seen[] {
  const sorted = [...sets].sort((a, b) => a.price - b.price || b.benefit - a.benefit);
  const stairs: Seen[] = [];
  for (const set of sorted) if (set.benefit > (stairs.at(-1)?.benefit ?? -1)) stairs.push(set);
  return stairs;
}

function checkAgainstAll(problem: ChoiceProblem, share: number): void {
  const rungs = ladder(problem, EFFORT);
  if (!rungs.ok) {
    expect(rungs.fault.code).toBe('must-include-conflict');
    expect(everySet(problem)).toEqual([]);
    return;
  }
  const stairs = stairsOf(everySet(problem));
  expect(rungs.value.proven).toBe(true);
  expect(rungs.value.rungs.map(({ priceCents: price, benefit }) => ({ price, benefit }))).toEqual(stairs);

  const top = stairs.at(-1)?.price ?? 0;
  const budget = cents(Math.round(top * share));
  const best = bestChoice({ ...problem, budgetCents: budget }, EFFORT);
  const wanted = stairs.filter(({ price }) => price <= budget).at(-1);
  if (wanted === undefined) {
    expect(best).toMatchObject({
      ok: false,
      fault: { code: 'must-include-too-dear', facts: { leastCents: stairs[0]?.price } },
    });
    return;
  }
  if (!best.ok) throw new Error(best.fault.detail);
  const { priceCents, benefit, proven, upperBound } = best.value;
  expect({ price: priceCents, benefit, proven, upperBound }).toEqual({
    ...wanted,
    proven: true,
    upperBound: wanted.benefit,
  });
}

describe('what to do with this much money', () => {
  it('is what looking at every set would say, at a budget and on the whole ladder', () => {
    fc.assert(fc.property(aProblem(8), fc.double({ min: 0, max: 1.1, noNaN: true }), checkAgainstAll), {
      numRuns: 3000,
    });
  });

  it('is that for sixteen lines too', () => {
    const sixteen = aCase(16).filter(({ size }) => size === 16);
    fc.assert(
      fc.property(sixteen.map(plainProblem), fc.double({ min: 0, max: 1.1, noNaN: true }), checkAgainstAll),
      { numRuns: 8 },
    );
  });

  it('the lower prices never promise a set dearer than it is', () => {
    fc.assert(
      fc.property(
        aCase(10).chain((drawn) => fc.tuple(anEstimate(drawn), fc.subarray([...drawn.lines.keys()]))),
        ([terms, chosen]) => {
          const model = estimatePrices(terms);
          if (!model.ok) throw new Error(model.fault.detail);
          const price = model.value.exact(chosen);
          const speaking = model.value.lowers.filter(
            ({ within }) =>
              within === undefined ||
              (within.in.every((line) => chosen.includes(line)) &&
                !within.out.some((line) => chosen.includes(line))),
          );
          const least = Math.min(...speaking.map((lower) => valueOf(lower, chosen) - lower.slack));
          expect(least).toBeLessThanOrEqual(price);
          // And they are of use: only supplies at their floor or cap and an amount off the order widen the gap.
          if (terms.orderDiscount?.cents === undefined) expect(price - least).toBeLessThan(2 * 900 + 100);
        },
      ),
      { numRuns: 3000 },
    );
  });

  it('more money never buys less, and nothing changes between two rungs', () => {
    fc.assert(
      fc.property(aCase(14).map(plainProblem), (problem) => {
        const rungs = ladder(problem, EFFORT);
        if (!rungs.ok) return;
        const at = (budget: number): BudgetProblem => ({ ...problem, budgetCents: cents(budget) });
        for (const [index, rung] of rungs.value.rungs.entries()) {
          const same = bestChoice(at(rung.priceCents), EFFORT);
          expect(same).toMatchObject({
            ok: true,
            value: { benefit: rung.benefit, priceCents: rung.priceCents },
          });
          const before = rungs.value.rungs[index - 1];
          if (rung.priceCents === 0) continue;
          const below = bestChoice(at(rung.priceCents - 1), EFFORT);
          expect(below).toMatchObject(
            before === undefined
              ? {
                  ok: false,
                  fault: { code: 'must-include-too-dear', facts: { leastCents: rung.priceCents } },
                }
              : { ok: true, value: { benefit: before.benefit, priceCents: before.priceCents } },
          );
        }
      }),
      { numRuns: 150 },
    );
  });
});
