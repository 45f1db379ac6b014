import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { NOTHING_AGREED, priceChoice } from '#libs/estimate';
import type { EstimateLine, LinePackage, OrderDiscount, PricingPolicy } from '#libs/estimate';
import type { Effort } from './choice-problem.js';
import type { EstimateTerms } from './estimate-prices.js';
import { relationFault } from './relation-fault.js';
import type { FoundLadder, FoundSets, OfferedLine, SetsQuestion } from './found-set.js';
import { ladderFor } from './ladder-for.js';
import { setsFor } from './sets-for.js';

const EFFORT: Effort = { timeLimitMs: 1, now: () => 0, seed: 1 };

const line = (id: string, over: Partial<OfferedLine> = {}): OfferedLine => ({
  id,
  benefit: 10,
  mustInclude: false,
  requires: [],
  excludes: [],
  ...over,
});
const priced = (id: string, steps: string[], partCents = 0): EstimateLine => ({
  id,
  rateId: 'general',
  rateCentsPerHour: cents(10_000),
  steps: steps.map((step) => ({ step, position: '', hundredths: bookHundredths(50) })),
  items: [{ id: `part ${id}`, kind: 'part', quantityHundredths: 100, unitPriceCents: cents(partCents) }],
});
const POLICY: PricingPolicy = { taxes: [], taxRounding: 'invoice', supplies: null };
const question = (
  lines: readonly OfferedLine[],
  estimate: readonly EstimateLine[],
  over: Partial<SetsQuestion> = {},
): SetsQuestion => ({
  lines,
  terms: { lines: estimate, given: NOTHING_AGREED, policy: POLICY },
  approved: [],
  budgetCents: null,
  notToBeDriven: false,
  ...over,
});
function found(asked: SetsQuestion): FoundSets & { ladder: FoundLadder; allCents: number } {
  const sets = setsFor(asked, EFFORT);
  if (!sets.ok) throw new Error(sets.fault.detail);
  const ladder = ladderFor(asked, EFFORT);
  if (!ladder.ok) throw new Error(ladder.fault.detail);
  return { ...sets.value, ladder: ladder.value, allCents: ladder.value.allCents };
}

describe('the sets for a budget', () => {
  // 50.00 for each step; brakes share the wheel with the hose.
  const lines = [
    line('brakes', { benefit: 1000, mustInclude: true }),
    line('hose', { benefit: 150 }),
    line('seats', { benefit: 1200 }),
  ];
  const estimate = [
    priced('brakes', ['wheel', 'pads'], 20_000),
    priced('hose', ['wheel'], 3000),
    priced('seats', [], 25_000),
  ];

  it('are the best with which the car may be driven, and the best without it where that is another', () => {
    // 300.00 for the brakes, 330.00 with the hose; the seats alone are 250.00.
    const { sets, leastSafeCents } = found(question(lines, estimate, { budgetCents: cents(33_000) }));
    expect(leastSafeCents).toBe(30_000);
    expect(sets).toMatchObject([
      { kind: 'drivable', chosen: ['brakes', 'hose'], leftOut: ['seats'], priceCents: 33_000, benefit: 1150 },
      {
        kind: 'not-to-be-driven',
        chosen: ['hose', 'seats'],
        priceCents: 33_000,
        benefit: 1350,
        proven: true,
      },
    ]);
  });

  it('leave the safe one out when the money does not reach, and say what it would take', () => {
    const { sets, leastSafeCents } = found(question(lines, estimate, { budgetCents: cents(29_999) }));
    expect(leastSafeCents).toBe(30_000);
    expect(sets.map(({ kind, chosen }) => [kind, chosen])).toEqual([['not-to-be-driven', ['seats']]]);
  });

  it('climb from the least that makes the car safe, saying what each step adds and swaps out', () => {
    const { ladder, allCents } = found(question(lines, estimate));
    expect(ladder).toMatchObject({ kind: 'drivable', proven: true });
    expect(ladder.rungs.map(({ priceCents, added, dropped }) => [priceCents, added, dropped])).toEqual([
      [30_000, ['brakes'], []],
      [33_000, ['hose'], []],
      [55_000, ['seats'], ['hose']],
      [58_000, ['hose'], []],
    ]);
    expect(allCents).toBe(58_000);
    const idle = found(question(lines, estimate, { notToBeDriven: true }));
    expect(idle.ladder.rungs.map(({ priceCents }) => priceCents)).toEqual([
      0, 8000, 25_000, 33_000, 55_000, 58_000,
    ]);
  });

  it('take either of two ways to mend one unsafe thing', () => {
    const ways = [
      line('new caliper', { benefit: 1000, mustInclude: true, excludes: ['used caliper'] }),
      line('used caliper', { benefit: 1000, mustInclude: true }),
      line('pads', { benefit: 1000, mustInclude: true }),
    ];
    const prices = [
      priced('new caliper', ['wheel'], 20_000),
      priced('used caliper', ['wheel'], 4000),
      priced('pads', ['wheel']),
    ];
    expect(found(question(ways, prices, { budgetCents: cents(40_000) }))).toMatchObject({
      leastSafeCents: 9000,
      sets: [{ kind: 'drivable', chosen: ['used caliper', 'pads'], priceCents: 9000 }],
    });
    // The new one was agreed to: the used one is out, and the thing is mended.
    expect(
      found(question(ways, prices, { budgetCents: cents(40_000), approved: ['new caliper'] })),
    ).toMatchObject({
      leastSafeCents: 0,
      sets: [{ kind: 'drivable', chosen: ['pads'], leftOut: ['used caliper'], priceCents: 0 }],
    });
  });

  it('have no safe one where what was agreed to stands in the way', () => {
    const both = [line('tow bar', { excludes: ['frame'] }), line('frame', { mustInclude: true })];
    const prices = [priced('tow bar', ['weld']), priced('frame', ['weld', 'cut'])];
    const sets = found(question(both, prices, { approved: ['tow bar'], budgetCents: cents(90_000) }));
    expect(sets).toMatchObject({ leastSafeCents: null, ladder: { kind: 'not-to-be-driven' } });
    expect(sets.sets).toMatchObject([{ kind: 'not-to-be-driven', chosen: [], leftOut: ['frame'] }]);
  });

  it('keep what is fixed out of every price, and in what it requires and excludes', () => {
    const fixed = [
      line('begun', { excludes: ['other'] }),
      line('other'),
      line('next', { requires: ['begun'] }),
    ];
    const sets = found(
      question(fixed, [priced('other', ['a']), priced('next', ['b'])], {
        approved: ['begun'],
        budgetCents: cents(99_000),
      }),
    );
    expect(sets.sets).toMatchObject([{ chosen: ['next'], leftOut: ['other'], priceCents: 5000 }]);
  });
});

interface Drawn {
  readonly lines: readonly OfferedLine[];
  readonly terms: EstimateTerms;
  readonly approved: readonly string[];
}

const aPolicy: fc.Arbitrary<PricingPolicy> = fc.record({
  taxes: fc
    .record({ ratePpm: fc.nat(250_000).map(ppm), on: fc.subarray(['labour', 'part', 'supplies'] as const) })
    .map((tax) => [{ name: 'tax', ...tax }]),
  taxRounding: fc.constantFrom('line', 'invoice'),
  supplies: fc.option(
    fc.record({
      ratePpm: fc.nat(200_000).map(ppm),
      floorCents: fc.constantFrom(0, 40).map(cents),
      capCents: fc.option(fc.constantFrom(60, 900).map(cents), { nil: null }),
    }),
    { nil: null },
  ),
});

const HOURS: Readonly<Record<string, number>> = { a: 40, b: 33, c: 75, d: 1 };
const together = (steps: readonly string[]): number =>
  [...new Set(steps)].reduce((sum, step) => sum + (HOURS[step] ?? 0), 0);

/** A book time for the first two lines, from that of the longer one to that of both. */
function aPackage(first: readonly string[] = [], second: readonly string[] = [], share = 0): LinePackage[] {
  const least = Math.max(together(first), together(second));
  const most = together([...first, ...second]);
  if (least === 0 || least === most) return [];
  const hundredths = bookHundredths(least + Math.round((most - least) * share));
  return [{ name: 'both', lineIds: ['line 0', 'line 1'], hundredths }];
}

const aQuestion: fc.Arbitrary<Drawn> = fc.integer({ min: 1, max: 6 }).chain((size) => {
  const ids = Array.from({ length: size }, (_, at) => `line ${at}`);
  const few = fc.oneof(
    { weight: 4, arbitrary: fc.constant<string[]>([]) },
    fc.subarray(ids, { maxLength: Math.min(2, size) }),
  );
  const own = fc.record({
    benefit: fc.nat(60),
    must: fc.nat(3).map((chance) => chance === 0),
    requires: few,
    excludes: few,
    steps: fc.subarray(['a', 'b', 'c', 'd'], { maxLength: 3 }),
    part: fc.nat(3000),
    rate: fc.constantFrom(900, 10_000, 13_333),
    approved: fc.nat(4).map((chance) => chance === 0),
    off: fc.option(fc.record({ labourPpm: fc.nat(400_000).map(ppm), itemsCents: fc.nat(900).map(cents) }), {
      nil: null,
      freq: 4,
    }),
  });
  const offOrder = fc.constantFrom<OrderDiscount | undefined>(
    undefined,
    undefined,
    { cents: cents(700) },
    { labourPpm: ppm(100_000), itemsPpm: ppm(50_000) },
  );
  return fc
    .record({
      drawn: fc.array(own, { minLength: size, maxLength: size }),
      policy: aPolicy,
      orderDiscount: offOrder,
      share: fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: undefined }),
    })
    .map(({ drawn, policy, orderDiscount, share }) => ({
      lines: drawn.map(({ benefit, must, requires, excludes }, at) =>
        line(ids[at] ?? '', { benefit, mustInclude: must, requires, excludes }),
      ),
      terms: {
        lines: drawn.map(({ steps, part, rate, off }, at): EstimateLine => ({
          ...priced(ids[at] ?? '', [], part),
          rateCentsPerHour: cents(rate),
          discount: off && { ...off, reason: 'as agreed' },
          steps: steps.map((step) => ({
            step,
            position: '',
            hundredths: bookHundredths(HOURS[step] ?? 0),
          })),
        })),
        given: NOTHING_AGREED,
        policy,
        orderDiscount,
        packages: share === undefined ? [] : aPackage(drawn[0]?.steps, drawn[1]?.steps, share),
      },
      approved: ids.filter((_, at) => drawn[at]?.approved),
    }));
});

interface Seen {
  readonly price: number;
  readonly benefit: number;
  readonly isSafe: boolean;
}

/** Every set, straight from the words: what it needs is in, nothing stands beside what it excludes. */
function everySet({ lines, terms, approved }: Drawn): Seen[] {
  const total = (chosen: readonly string[]): number => {
    const price = priceChoice({ ...terms, chosen });
    if (!price.ok) throw new Error(price.fault.detail);
    return price.value.totals.totalCents;
  };
  const open = lines.filter(({ id }) => !approved.includes(id));
  const before = total(approved);
  const excludes = (a: OfferedLine, b: OfferedLine): boolean =>
    a.excludes.includes(b.id) || b.excludes.includes(a.id);
  const seen: Seen[] = [];
  for (let bits = 0; bits < 2 ** open.length; bits++) {
    const chosen = open.filter((_, at) => (bits >> at) & 1);
    const inAll = lines.filter(({ id }) => approved.includes(id) || chosen.some((one) => one.id === id));
    const isAllowed = chosen.every(
      (one) =>
        one.requires.every((id) => inAll.some((other) => other.id === id)) &&
        !inAll.some((other) => excludes(one, other)),
    );
    if (!isAllowed) continue;
    const isSafe = lines.every(
      (one) =>
        !one.mustInclude ||
        inAll.includes(one) ||
        inAll.some((other) => other.mustInclude && excludes(one, other)),
    );
    const price = Math.max(0, total(inAll.map(({ id }) => id)) - before);
    seen.push({ price, benefit: chosen.reduce((sum, { benefit }) => sum + benefit, 0), isSafe });
  }
  return seen;
}

function stairsOf(sets: readonly Seen[]): { price: number; benefit: number }[] {
  const stairs: Seen[] = [];
  for (const set of [...sets].sort((a, b) => a.price - b.price || b.benefit - a.benefit))
    if (set.benefit > (stairs.at(-1)?.benefit ?? -1)) stairs.push(set);
  return stairs.map(({ price, benefit }) => ({ price, benefit }));
}

describe('the sets for any revision', () => {
  it('are those that looking at every set finds, beside whatever was agreed to', () => {
    fc.assert(
      fc.property(aQuestion, fc.nat(12_000), fc.boolean(), (drawn, budget, notToBeDriven) => {
        fc.pre(relationFault(drawn.lines) === null);
        const all = everySet(drawn);
        const safe = stairsOf(all.filter(({ isSafe }) => isSafe));
        const free = stairsOf(all);
        const answer = found({ ...drawn, budgetCents: cents(budget), notToBeDriven });
        const climbed = notToBeDriven || safe.length === 0 ? free : safe;
        expect(answer.ladder.rungs.map(({ priceCents: price, benefit }) => ({ price, benefit }))).toEqual(
          climbed,
        );
        expect(answer.leastSafeCents).toBe(safe[0]?.price ?? null);
        const best = (stairs: typeof free) => stairs.filter(({ price }) => price <= budget).at(-1);
        const told = (kind: string) => {
          const set = answer.sets.find((one) => one.kind === kind);
          return set && { price: set.priceCents, benefit: set.benefit };
        };
        expect(told('drivable')).toEqual(best(safe));
        const [mine, other] = [best(safe), best(free)];
        if (notToBeDriven || mine?.benefit !== other?.benefit)
          expect(told('not-to-be-driven')).toEqual(other);
        expect(answer.sets.every(({ proven, benefit, upperBound }) => proven && upperBound === benefit)).toBe(
          true,
        );
      }),
      { numRuns: 400 },
    );
  });
});

describe('what lines of a revision require and exclude', () => {
  it('may be a circle of needs, and may not be a line that needs what it excludes', () => {
    expect(relationFault([line('a', { requires: ['b'] }), line('b', { requires: ['a'] })])).toBeNull();
    expect(relationFault([line('a', { requires: ['a'] })])).toEqual({ kind: 'itself', lineId: 'a' });
    expect(relationFault([line('a', { excludes: ['a'] })])).toEqual({ kind: 'itself', lineId: 'a' });
    expect(relationFault([line('a', { requires: ['z'] })])).toEqual({
      kind: 'unknown',
      lineId: 'a',
      other: 'z',
    });
    expect(
      relationFault([
        line('a', { requires: ['b'] }),
        line('b', { requires: ['c'] }),
        line('c', { excludes: ['a'] }),
      ]),
    ).toEqual({ kind: 'contradiction', lineId: 'a', one: 'c', other: 'a' });
    expect(
      relationFault([line('a', { requires: ['b', 'c'] }), line('b', { excludes: ['c'] }), line('c')]),
    ).toEqual({ kind: 'contradiction', lineId: 'a', one: 'b', other: 'c' });
  });
});
