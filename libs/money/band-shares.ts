import { cents, type Cents } from '#libs/kernel';
import type { MatrixMethod, PriceBand } from './price-band.js';

/** The part of a cost that one band prices, and what it sells for in millionths of a cent, unrounded. */
export interface BandShare {
  readonly band: PriceBand;
  readonly costCents: Cents;
  readonly exactPpm: bigint;
}

/** How a cost spreads over the bands. Bands that it does not reach are left out; a cost of nothing reaches none. */
export function bandShares(bands: readonly PriceBand[], method: MatrixMethod, cost: Cents): BandShare[] {
  return bands
    .map((band, at) => {
      const next = bands[at + 1]?.fromCents ?? Infinity;
      const marginal = Math.max(0, Math.min(cost, next) - band.fromCents);
      const whole = cost >= band.fromCents && cost < next ? cost : 0;
      return { band, costCents: cents(method === 'marginal' ? marginal : whole) };
    })
    .filter(({ costCents }) => costCents > 0)
    .map((share) => ({ ...share, exactPpm: BigInt(share.costCents) * BigInt(share.band.multiplierPpm) }));
}
