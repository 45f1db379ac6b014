import { cents, type Cents } from '#libs/kernel';
import { divideHalfUp } from './divide-half-up.js';
import type { MatrixMethod, PriceBand } from './price-band.js';

/** Costs of one band that sell for less than a part that costs less. */
export interface MatrixInversion {
  readonly fromCents: Cents;
  /** The last of them. */
  readonly toCents: Cents;
  /** What a part at `fromCents` sells for. */
  readonly priceCents: Cents;
  /** The cheaper part that sells for the most, and its price. */
  readonly cheaperCostCents: Cents;
  readonly cheaperPriceCents: Cents;
  /** By how much the price falls there at most. */
  readonly dropCents: Cents;
}

const MILLION = 1_000_000n;

function priceAt(cost: number, { multiplierPpm }: PriceBand): number {
  return Number(divideHalfUp(BigInt(cost) * BigInt(multiplierPpm), MILLION));
}

/** The last cost whose price in this band stays below `price`: cost x multiplier < (price - 1/2). */
function lastBelow(price: number, { multiplierPpm }: PriceBand): number {
  const bound = BigInt(price) * MILLION - MILLION / 2n;
  const rate = BigInt(multiplierPpm);
  return Number((bound + rate - 1n) / rate - 1n);
}

/**
 * Where a price matrix sells a dearer part for less than a cheaper one: every such cost lies in one of the ranges, and
 * no other does. Empty for marginal bands, and for whole bands whose multipliers do not fall.
 */
export function matrixInversions(bands: readonly PriceBand[], method: MatrixMethod): MatrixInversion[] {
  if (method === 'marginal') return [];
  const inversions: MatrixInversion[] = [];
  let peak = { cost: 0, price: 0 };
  bands.forEach((band, at) => {
    const next = bands[at + 1]?.fromCents;
    const price = priceAt(band.fromCents, band);
    if (price < peak.price) {
      const last = lastBelow(peak.price, band);
      inversions.push({
        fromCents: band.fromCents,
        toCents: cents(next === undefined ? last : Math.min(last, next - 1)),
        priceCents: cents(price),
        cheaperCostCents: cents(peak.cost),
        cheaperPriceCents: cents(peak.price),
        dropCents: cents(peak.price - price),
      });
    }
    if (next !== undefined && priceAt(next - 1, band) > peak.price) {
      peak = { cost: next - 1, price: priceAt(next - 1, band) };
    }
  });
  return inversions;
}
