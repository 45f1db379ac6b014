import { cents, ok, type Cents, type Result } from '#libs/kernel';
import { bandShares } from './band-shares.js';
import { checkBands, type MatrixFault } from './check-bands.js';
import { divideHalfUp } from './divide-half-up.js';
import type { MatrixMethod, PriceBand } from './price-band.js';

/**
 * The price of a part that costs `cost`, half up once on the exact sum. By `marginal` bands it never falls as the cost
 * rises; by `whole-band` it can (`matrixInversions` says where). A credit mirrors the charge.
 *
 * @throws RangeError for a price past 2^53 cents.
 */
export function matrixPrice(
  bands: readonly PriceBand[],
  method: MatrixMethod,
  cost: Cents,
): Result<Cents, MatrixFault> {
  const checked = checkBands(bands);
  if (!checked.ok) return checked;
  const shares = bandShares(bands, method, cents(Math.abs(cost)));
  const exact = shares.reduce((sum, { exactPpm }) => sum + exactPpm, 0n);
  const price = Number(divideHalfUp(exact, 1_000_000n));
  return ok(cents(cost < 0 ? -price : price));
}
