import fc from 'fast-check';
import { cents, ppm } from '#libs/kernel';
import { closedForm } from './closed-form.js';
import type { RangeInput, RangeSupplies } from './range-input.js';
import { range } from './range.js';
import type { Spread } from './spread.js';

const DRAWS = 120;

const aSpread = (most: number): fc.Arbitrary<Spread> =>
  fc
    .tuple(fc.nat(most), fc.nat(most), fc.nat(most))
    .map((three) => three.sort((a, b) => a - b))
    .chain(([low, likely, high]) =>
      fc.constantFrom(
        { low, likely, high },
        { low: likely, likely, high: likely },
        { low, likely: low, high },
      ),
    );
const chance = fc.oneof(fc.nat(1_000_000), fc.constantFrom(0, 1_000_000)).map(ppm);
const aLine = fc.record({
  labour: aSpread(50_000),
  items: aSpread(30_000),
  itemsTaxPpm: fc.nat(250_000).map(ppm),
});
const numbered = <T>(parts: T[]): (T & { id: string })[] =>
  parts.map((part, at) => ({ ...part, id: `${at}` }));
const aSupplies: fc.Arbitrary<RangeSupplies | null> = fc.option(
  fc.record({
    ratePpm: fc.nat(200_000).map(ppm),
    floorCents: fc.constantFrom(0, 500, 5000).map(cents),
    capCents: fc.option(fc.constantFrom(600, 4000).map(cents), { nil: null }),
    base: fc.constantFrom('labour', 'parts', 'labour-and-parts'),
    givenBaseCents: fc.constantFrom(0, 20_000).map(cents),
    givenSuppliesCents: fc.constantFrom(0, 700).map(cents),
    taxPpm: fc.nat(100_000).map(ppm),
  }),
  { nil: null },
);
const anInput: fc.Arbitrary<RangeInput> = fc.record({
  lines: fc.array(aLine, { maxLength: 6 }).map(numbered),
  contingencies: fc
    .array(
      fc
        .tuple(aLine, chance, fc.option(fc.nat(60_000).map(cents), { nil: null }))
        .map(([line, chancePpm, capCents]) => ({ ...line, chancePpm, capCents })),
      { maxLength: 3 },
    )
    .map(numbered),
  unseen: fc.array(fc.record({ chancePpm: chance, cents: aSpread(80_000) }), { maxLength: 3 }).map(numbered),
  commonSpreadPpm: fc.constantFrom(0, 100_000, 500_000).map(ppm),
  labourTaxPpm: fc.nat(200_000).map(ppm),
  supplies: aSupplies,
  fixedCents: fc.nat(100_000).map(cents),
});

const drawn = (input: RangeInput, seed: number) => {
  const result = range(input, { seed, draws: DRAWS });
  if (!result.ok) throw new Error(result.fault.detail);
  const { p10Cents, p50Cents, p80Cents, p95Cents } = result.value;
  return { ...result.value, quantiles: [p10Cents, p50Cents, p80Cents, p95Cents] };
};
const atLeast = (more: number[], less: number[]): void => {
  for (const [at, value] of less.entries()) expect(more[at]).toBeGreaterThanOrEqual(value);
};
const raised = (spread: Spread, [low, likely, high]: readonly number[]): Spread => {
  const more = {
    low: spread.low + (low ?? 0),
    likely: spread.likely + (likely ?? 0),
    high: spread.high + (high ?? 0),
  };
  return {
    low: more.low,
    likely: Math.max(more.low, more.likely),
    high: Math.max(more.low, more.likely, more.high),
  };
};

describe('whatever the estimate', () => {
  it('quantiles rise, shares add up to one exactly, and all of it is whole', () => {
    fc.assert(
      fc.property(anInput, fc.nat(), (input, seed) => {
        const { quantiles, shares, sdCents, meanCents } = drawn(input, seed);
        atLeast(quantiles.slice(1), quantiles.slice(0, -1));
        const sum = shares.reduce((all, { sharePpm }) => all + sharePpm, 0);
        expect(sum === 1_000_000 || (sum === 0 && sdCents === 0)).toBe(true);
        for (const whole of [...quantiles, sdCents, meanCents, ...shares.map(({ sharePpm }) => sharePpm)]) {
          expect(Number.isSafeInteger(whole)).toBe(true);
          expect(whole).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('a larger low, likely, high, chance or cap, or one part more, never lowers a quantile', () => {
    const three = fc.tuple(fc.nat(9000), fc.nat(9000), fc.nat(9000));
    fc.assert(
      fc.property(anInput, fc.nat(), three, three, aLine, (input, seed, labour, items, added) => {
        const before = drawn(input, seed).quantiles;
        const wider: RangeInput = {
          ...input,
          lines: [
            ...input.lines.map((line) => ({
              ...line,
              labour: raised(line.labour, labour),
              items: raised(line.items, items),
            })),
            { ...added, id: 'added' },
          ],
          contingencies: input.contingencies.map((one) => ({
            ...one,
            items: raised(one.items, items),
            chancePpm: ppm(Math.min(1_000_000, one.chancePpm + 70_000)),
            capCents: one.capCents === null ? null : cents(one.capCents + 500),
          })),
          unseen: input.unseen.map((one) => ({ ...one, cents: raised(one.cents, labour) })),
        };
        atLeast(drawn(wider, seed).quantiles, before);
      }),
      { numRuns: 1000 },
    );
  });

  it('nothing is drawn outside of what could happen', () => {
    fc.assert(
      fc.property(anInput, fc.nat(), (drawnInput, seed) => {
        const input: RangeInput = { ...drawnInput, commonSpreadPpm: ppm(0), supplies: null };
        const perLabour = 1 + input.labourTaxPpm / 1_000_000;
        const least = input.lines.reduce<number>(
          (sum, { labour, items, itemsTaxPpm: tax }) =>
            sum + labour.low * perLabour + items.low * (1 + tax / 1_000_000),
          input.fixedCents,
        );
        const extras = [...input.contingencies, ...input.lines].reduce((sum, part) => {
          const whole = part.labour.high * perLabour + part.items.high * (1 + part.itemsTaxPpm / 1_000_000);
          const { capCents } = part as { readonly capCents?: number | null };
          return sum + Math.min(whole, capCents ?? Infinity);
        }, 0);
        const most = input.unseen.reduce(
          (sum, { cents: spread }) => sum + spread.high,
          input.fixedCents + extras,
        );
        const { p10Cents, p95Cents } = drawn(input, seed);
        expect(p10Cents).toBeGreaterThanOrEqual(Math.floor(least));
        expect(p95Cents).toBeLessThanOrEqual(Math.ceil(most));
      }),
      { numRuns: 1000 },
    );
  });

  it('the mean of the draws is near that of the formula, where there is one', () => {
    let found = 0;
    fc.assert(
      fc.property(anInput, fc.nat(), (input, seed) => {
        const exact = closedForm(input);
        if (!exact.ok || exact.value === null) return;
        found++;
        const { meanCents, sdCents } = exact.value;
        // Six standard errors: of 1000 cases none should be out by chance.
        const near = (6 * sdCents) / Math.sqrt(DRAWS) + 1;
        // A rare, large part may not have happened in this many draws at all: its tail is not normal.
        if (input.contingencies.length + input.unseen.length > 0 || input.commonSpreadPpm > 200_000) return;
        expect(Math.abs(drawn(input, seed).meanCents - meanCents)).toBeLessThanOrEqual(near);
      }),
      { numRuns: 1000 },
    );
    expect(found).toBeGreaterThan(200);
  });
});
