import fc from 'fast-check';
import { cents, ppm } from '#libs/kernel';
import { bandShares } from './band-shares.js';
import { checkBands } from './check-bands.js';
import { matrixInversions } from './matrix-inversions.js';
import { matrixPrice } from './matrix-price.js';
import { MATRIX_METHODS, type MatrixMethod, type PriceBand } from './price-band.js';

const band = (from: number, multiplier: number): PriceBand => ({
  fromCents: cents(from),
  multiplierPpm: ppm(multiplier),
});
const priceOf = (bands: readonly PriceBand[], method: MatrixMethod, cost: number): number => {
  const price = matrixPrice(bands, method, cents(cost));
  if (!price.ok) throw new Error(price.fault.detail);
  return price.value;
};

// Up to five bands that start within the first 400 cents, so that every cost can be tried.
const someBands = fc
  .uniqueArray(fc.integer({ min: 1, max: 400 }), { maxLength: 4 })
  .chain((starts) =>
    fc.tuple(
      ...[0, ...starts.sort((a, b) => a - b)].map((from) =>
        fc.integer({ min: 1, max: 5_000_000 }).map((multiplier) => band(from, multiplier)),
      ),
    ),
  );

describe('the price of a part by its cost', () => {
  // Bands and prices of our own, worked by an independent program: 3 times up to 10.00, 2.2 to 50.00, 1.8 to 200.00, 1.5 above.
  const bands = [band(0, 3_000_000), band(1000, 2_200_000), band(5000, 1_800_000), band(20_000, 1_500_000)];
  it.each([
    [0, 0, 0],
    [999, 2997, 2997],
    [1000, 2200, 3000],
    [1001, 2202, 3002],
    [4999, 10_998, 11_798],
    [5000, 9000, 11_800],
    [19_999, 35_998, 38_798],
    [20_000, 30_000, 38_800],
    [45_000, 67_500, 76_300],
  ])('a cost of %i sells at %i by the whole band and %i by marginal bands', (cost, whole, marginal) => {
    expect(priceOf(bands, 'whole-band', cost)).toBe(whole);
    expect(priceOf(bands, 'marginal', cost)).toBe(marginal);
    expect(priceOf(bands, 'marginal', -cost)).toBe(0 - marginal);
  });

  it('a dearer part never sells for less by marginal bands, whatever the bands', () => {
    fc.assert(
      fc.property(someBands, fc.nat(1_000_000), fc.nat(1000), (any, cost, more) => {
        expect(priceOf(any, 'marginal', cost + more)).toBeGreaterThanOrEqual(priceOf(any, 'marginal', cost));
      }),
      { numRuns: 2000 },
    );
  });

  it('is rounded once: less than half a cent from the exact sum over the bands, which share the cost out', () => {
    fc.assert(
      fc.property(someBands, fc.constantFrom(...MATRIX_METHODS), fc.nat(10_000_000), (any, method, cost) => {
        const shares = bandShares(any, method, cents(cost));
        expect(shares.reduce((sum, share) => sum + share.costCents, 0)).toBe(cost);
        const exact = shares.reduce((sum, share) => sum + share.exactPpm, 0n);
        const off = BigInt(priceOf(any, method, cost)) * 1_000_000n - exact;
        expect(off > -500_000n && off <= 500_000n).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  it('stays exact where the product is past 2^53', () => {
    // 90,000,000.01 at 2.345678 times its cost is 211,111,020.0234... by hand: 9000000001 x 2345678 = 21111102002345678.
    expect(priceOf([band(0, 2_345_678)], 'marginal', 9_000_000_001)).toBe(21_111_102_002);
  });
});

describe('where whole bands invert', () => {
  it('says which costs sell for less than a cheaper part, and by how much', () => {
    // The textbook trap: a part at 9.99 sells for 29.97, one at 10.00 for 22.00. 29.97 / 2.2 = 13.62: up to there it inverts.
    expect(matrixInversions([band(0, 3_000_000), band(1000, 2_200_000)], 'whole-band')).toEqual([
      {
        fromCents: 1000,
        toCents: 1362,
        priceCents: 2200,
        cheaperCostCents: 999,
        cheaperPriceCents: 2997,
        dropCents: 797,
      },
    ]);
    expect(matrixInversions([band(0, 3_000_000), band(1000, 2_200_000)], 'marginal')).toEqual([]);
    expect(
      matrixInversions([band(0, 1_500_000), band(1000, 1_500_000), band(3000, 1_600_000)], 'whole-band'),
    ).toEqual([]);
  });

  it('is reported for exactly the costs at which it happens', () => {
    fc.assert(
      fc.property(someBands, (any) => {
        const reported = matrixInversions(any, 'whole-band');
        const wrong: number[] = [];
        let peak = 0;
        for (let cost = 0; cost <= 1200; cost += 1) {
          const price = priceOf(any, 'whole-band', cost);
          const known = reported.find((one) => one.fromCents <= cost && cost <= one.toCents);
          const isRight =
            known === undefined
              ? price >= peak
              : price < peak && known.cheaperPriceCents === peak && known.dropCents >= peak - price;
          if (!isRight) wrong.push(cost);
          peak = Math.max(peak, price);
        }
        expect(wrong).toEqual([]);
        for (const one of reported) {
          expect(priceOf(any, 'whole-band', one.cheaperCostCents)).toBe(one.cheaperPriceCents);
          expect(priceOf(any, 'whole-band', one.fromCents)).toBe(one.priceCents);
          expect(one.cheaperPriceCents - one.priceCents).toBe(one.dropCents);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('bands are refused', () => {
  it.each<[string, PriceBand[], string[]]>([
    ['when there is none', [], ['/bands']],
    ['when the first leaves the cheapest parts out', [band(1, 2_000_000)], ['/bands/0/fromCents']],
    ['when they do not rise', [band(0, 1), band(500, 1), band(500, 1)], ['/bands/2/fromCents']],
    [
      'when a multiplier is nothing',
      [band(0, 0), band(5, -1)],
      ['/bands/0/multiplierPpm', '/bands/1/multiplierPpm'],
    ],
    [
      'when an entry is a slip',
      [band(0, 1_000_000_001), band(100_000_001, 1)],
      ['/bands/0/multiplierPpm', '/bands/1/fromCents'],
    ],
    ['when a start is negative', [band(-5, 1)], ['/bands/0/fromCents']],
  ])('%s', (_, bands, pointers) => {
    const refused = checkBands(bands);
    expect(refused).toMatchObject({ ok: false, fault: { code: 'matrix-invalid' } });
    expect(refused.ok ? [] : refused.fault.fields?.map(({ pointer }) => pointer)).toEqual(pointers);
    expect(matrixPrice(bands, 'marginal', cents(1)).ok).toBe(false);
  });
});
