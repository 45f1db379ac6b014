import { cents, ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { checkRange } from './check-range.js';
import { drawTotals } from './draw-totals.js';
import { quantile } from './quantile.js';
import type { Range, RangeEffort, RangeFault, RangeInput } from './range-input.js';
import { varianceShares } from './variance-shares.js';

/**
 * What the owner may come to pay, by drawing it many times. In every draw: each line's labour and items triangular, a
 * contingency or an unseen checkpoint by its chance, one lognormal factor on all labour, then supplies with floor and cap
 * and tax. All of them are independent of each other, but for the common factor.
 *
 * The same seed gives the same range. Every part has its own stream and is drawn by inversion, so with the same seed a
 * larger low, likely, high, chance or cap, or one part more, never lowers a quantile.
 */
export function range(input: RangeInput, effort: RangeEffort): Result<Range, RangeFault> {
  const checked = checkRange(input, effort);
  if (!checked.ok) return checked;
  const drawn = drawTotals(input, effort);
  const { mean, sd } = momentsOfDraws(drawn.totals);
  const shares = varianceShares(input, drawn, mean);
  const sorted = drawn.totals.sort();
  const at = (percent: number): number => Math.round(quantile(sorted, percent));
  return ok({
    p10Cents: cents(at(10)),
    p50Cents: cents(at(50)),
    p80Cents: cents(at(80)),
    p95Cents: cents(at(95)),
    meanCents: cents(Math.round(mean)),
    sdCents: cents(Math.round(sd)),
    draws: effort.draws,
    seed: effort.seed,
    shares,
  });
}

function momentsOfDraws(totals: Float64Array): { mean: number; sd: number } {
  let sum = 0;
  for (const total of totals) sum += total;
  const mean = sum / totals.length;
  let squares = 0;
  for (const total of totals) squares += (total - mean) * (total - mean);
  return { mean, sd: Math.sqrt(squares / totals.length) };
}
