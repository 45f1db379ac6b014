import fc from 'fast-check';
import {
  ITEM_KINDS,
  NO_CHARGES,
  NOTHING_AGREED,
  SUPPLIES_BASES,
  packageRange,
  type AlreadyAgreed,
  type ChoiceInput,
  type EstimateItem,
  type EstimateLine,
  type LineDiscount,
  type LinePackage,
  type OrderDiscount,
  type PricingPolicy,
  type TaxKind,
} from '#libs/estimate';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import type { LabourStep } from '#libs/labour';

/** Estimates of every kind for the laws of pricing: few steps that many lines use, and every term that a shop can set. */

const TAX_KINDS: readonly TaxKind[] = ['labour', ...ITEM_KINDS, 'supplies'];
const POOL = Array.from({ length: 8 }, (_, at) => ({
  step: `step ${at % 5}`,
  position: at < 5 ? 'engine' : 'front',
}));
const PARTS_OF_ALL = [0, 50_000, 100_000, 333_333, 1_000_000];

const maybe = <T>(one: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  fc.option(one, { nil: undefined, freq: 2 });
const seldom = <T>(one: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  fc.nat(3).chain((draw) => (draw === 0 ? one : fc.constant(undefined)));
const aPortion = fc.oneof(fc.constantFrom(...PARTS_OF_ALL), fc.nat(1_000_000)).map(ppm);
const aRate = fc.oneof(fc.constantFrom(0, 9500, 12_950), fc.integer({ min: 1, max: 25_000 })).map(cents);

const anItem = (id: string): fc.Arbitrary<EstimateItem> =>
  fc.record({
    id: fc.constant(id),
    kind: fc.constantFrom(...ITEM_KINDS),
    quantityHundredths: fc.oneof(fc.constant(100), fc.nat(500)),
    unitPriceCents: fc.oneof(fc.nat(60), fc.nat(60_000)).map(cents),
    coreCents: seldom(fc.nat(9000).map(cents)),
  });

const aDiscount: fc.Arbitrary<LineDiscount> = fc.record({
  labourPpm: maybe(aPortion),
  itemsPpm: maybe(aPortion),
  itemsCents: maybe(fc.nat(5000).map(cents)),
  reason: fc.constant('a regular'),
});

const place = (at: number): { step: string; position: string } => POOL[at] ?? { step: '', position: '' };

/** Work that no other line shares: what a package can save. */
const ownStep = (id: string, hours: number): LabourStep => ({
  step: id,
  position: 'engine',
  hundredths: bookHundredths(hours),
});

const aLine = (
  id: string,
  hours: readonly number[],
  rates: readonly fc.Arbitrary<ReturnType<typeof cents>>[],
): fc.Arbitrary<EstimateLine> =>
  fc.record({
    id: fc.constant(id),
    rateId: fc.constant('any'),
    rateCentsPerHour: fc.oneof(...rates),
    steps: fc.tuple(fc.subarray([...POOL.keys()], { maxLength: 5 }), fc.nat(300)).chain(([used, ownHours]) =>
      fc.tuple(
        ...[
          ...used.map((at) => ({ ...place(at), hundredths: bookHundredths(hours[at] ?? 0) })),
          ownStep(id, ownHours),
        ].map((step) =>
          fc
            .oneof(
              { weight: 6, arbitrary: fc.constant(undefined) },
              { weight: 1, arbitrary: fc.oneof(...rates) },
            )
            .map((rate) => ({
              ...step,
              ...(rate === undefined ? {} : { rateId: 'own', rateCentsPerHour: rate }),
            })),
        ),
      ),
    ),
    items: fc
      .nat(2)
      .chain((count) => fc.tuple(...Array.from({ length: count }, (_, at) => anItem(`${id} item ${at}`)))),
    noCharge: seldom(fc.constantFrom(...NO_CHARGES)),
    discount: seldom(aDiscount),
  });

/** Up to `most` lines, with ids against the order of the list so that nothing leans on it. */
export const anyLines = (most: number, least = 1): fc.Arbitrary<EstimateLine[]> =>
  fc
    .record({
      hours: fc.array(fc.oneof(fc.nat(250), fc.constantFrom(0, 1, 10, 33)), { minLength: 8, maxLength: 8 }),
      rates: fc.oneof(fc.tuple(aRate), fc.tuple(aRate, aRate), fc.tuple(aRate, aRate, aRate)),
      count: fc.integer({ min: least, max: most }),
    })
    .chain(({ hours, rates, count }) =>
      fc.tuple(
        ...Array.from({ length: count }, (_, at) =>
          aLine(
            `line ${9 - at}`,
            hours,
            rates.map((rate) => fc.constant(rate)),
          ),
        ),
      ),
    );

export const anyPolicy: fc.Arbitrary<PricingPolicy> = fc.record({
  taxes: fc
    .array(fc.record({ ratePpm: fc.nat(250_000).map(ppm), on: fc.subarray([...TAX_KINDS]) }), {
      maxLength: 3,
    })
    .map((taxes) => taxes.map((tax, at) => ({ name: `tax ${at}`, ...tax }))),
  taxRounding: fc.constantFrom('line', 'invoice'),
  taxesCombined: fc.constantFrom(undefined, false, true),
  supplies: fc.option(
    fc.record({
      ratePpm: fc.nat(200_000).map(ppm),
      floorCents: fc.constantFrom(0, 500, 2000).map(cents),
      capCents: fc.option(fc.constantFrom(100, 3500, 9000).map(cents), { nil: null }),
      base: fc.constantFrom(undefined, ...SUPPLIES_BASES),
    }),
    { nil: null },
  ),
});

export const anyOrderDiscount: fc.Arbitrary<OrderDiscount | undefined> = fc.oneof(
  { weight: 2, arbitrary: fc.constant(undefined) },
  fc.record({ labourPpm: maybe(aPortion), itemsPpm: maybe(aPortion) }),
  fc.record({ cents: fc.oneof(fc.nat(300), fc.nat(60_000)).map(cents), reason: fc.constant('spring') }),
);

export const anyGiven: fc.Arbitrary<AlreadyAgreed> = fc.oneof(
  { weight: 2, arbitrary: fc.constant(NOTHING_AGREED) },
  fc.record({
    // All of a step, or some hundredths of it.
    steps: fc.subarray(POOL).chain((pairs) =>
      fc.tuple(
        ...pairs.map((pair) =>
          maybe(fc.nat(150)).map((part) => ({
            ...pair,
            ...(part === undefined ? {} : { hundredths: bookHundredths(part) }),
          })),
        ),
      ),
    ),
    labourCents: fc.nat(80_000).map(cents),
    suppliesCents: fc.nat(5000).map(cents),
    suppliesBaseCents: maybe(fc.nat(90_000).map(cents)),
    orderDiscountCents: maybe(fc.nat(400).map(cents)),
  }),
);

/** Packages of these lines, with possible hours; two of them may overlap. */
export const anyPackages = (lines: readonly EstimateLine[]): fc.Arbitrary<LinePackage[]> =>
  lines.length < 2
    ? fc.constant([])
    : fc.array(
        fc
          .record({
            used: fc.subarray([...lines], { minLength: 2, maxLength: Math.min(3, lines.length) }),
            at: fc.integer({ min: 0, max: 100 }),
          })
          .map(({ used, at }) => {
            const { low, high } = packageRange(used);
            return {
              name: `package ${used.map(({ id }) => id).join(' ')}`,
              lineIds: used.map(({ id }) => id),
              hundredths: bookHundredths(low + Math.floor(((high - low) * at) / 100)),
            };
          }),
        { maxLength: 2 },
      );

/** A choice under any terms. */
export const anyChoice = (most = 6): fc.Arbitrary<ChoiceInput> =>
  fc.tuple(anyLines(most), fc.boolean()).chain(([lines, hasPackages]) =>
    fc.record({
      lines: fc.constant(lines),
      chosen: fc.subarray(lines.map(({ id }) => id)),
      // Most of what was agreed to before spoils a package.
      given: hasPackages
        ? fc.oneof({ weight: 4, arbitrary: fc.constant(NOTHING_AGREED) }, anyGiven)
        : anyGiven,
      policy: anyPolicy,
      orderDiscount: anyOrderDiscount,
      packages: hasPackages ? anyPackages(lines) : fc.constant(undefined),
    }),
  );
