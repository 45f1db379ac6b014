import { cents, ppm } from '#libs/kernel';
import { allocate } from '#libs/money';
import type { DrawnTotals } from './draw-totals.js';
import type { Drawn } from './draw-part.js';
import { fraction } from './parts-of.js';
import type { RangeInput, RangePartKind, RangeShare } from './range-input.js';

interface Cause {
  readonly kind: RangePartKind;
  readonly id: string | null;
  /** Covariance with the total, supplies left out, and of what supplies are a share of. */
  readonly total: number;
  readonly base: number;
}

/**
 * What each part causes of the variance: its covariance with the total, over the variance of the total. The total is
 * the sum of its parts, so these add up to one. The common factor's part is what it makes of the labour that was expected;
 * what it makes of a line's own deviation stays with the line. Then all parts are uncorrelated, and for sums without a
 * cap the shares are those of the closed form. Supplies are caused by what they are charged on, each by its covariance.
 * A share that chance alone made negative counts as nothing.
 */
export function varianceShares(input: RangeInput, drawnTotals: DrawnTotals, mean: number): RangeShare[] {
  const { parts, drawn, common, supplies, totals } = drawnTotals;
  const from = new Float64Array(totals.length);
  for (let at = 0; at < from.length; at++) from[at] = (totals[at] ?? 0) - mean;
  const moved = common === null ? from : product(from, common);
  const pull = sumOf(moved);
  const expected = parts.reduce((sum, _, at) => sum + (drawn[at]?.expectedLabour ?? 0), 0);
  const perLabour = 1 + fraction(input.labourTaxPpm);
  const labourBears = input.supplies === null || input.supplies.base === 'parts' ? 0 : 1;
  const causes: Cause[] = parts.map(({ kind, id }, at) => {
    const own = drawn[at];
    if (own === undefined) return { kind, id, total: 0, base: 0 };
    const labour = covariance(own.labour, moved, pull) - own.expectedLabour * pull;
    const other = covariance(own.other, from, 0);
    const base = labour * labourBears + other * own.otherBears + covariance(own.base, from, 0);
    return { kind, id, total: labour * perLabour + other * own.perOther, base };
  });
  causes.push({
    kind: 'common',
    id: null,
    total: expected * pull * perLabour,
    base: expected * pull * labourBears,
  });
  const allBase = causes.reduce((sum, { base }) => sum + base, 0);
  const perSupply = 1 + fraction(input.supplies?.taxPpm ?? 0);
  const ofSupplies =
    input.supplies === null || allBase <= 0 ? 0 : (perSupply * dot(supplies, from)) / allBase;
  const weights = causes.map(({ total, base }) => Math.max(0, total + ofSupplies * base));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  const shares = isNothing(all, mean, totals.length)
    ? weights.map(() => 0)
    : // Weights as shares of one with fifteen digits: their proportion is all that counts.
      allocate(
        cents(1_000_000),
        weights.map((weight) => Math.round((weight / all) * 1e15)),
      );
  return causes.map(({ kind, id }, at) => ({ kind, id, sharePpm: ppm(shares[at] ?? 0) }));
}

/** A variance that the last digits of the sums alone can make. */
const isNothing = (all: number, mean: number, draws: number): boolean =>
  all <= draws * (1 + mean * mean) * 1e-18;

/** With what `from` holds; `sum` is the sum of that, for what is the same in all draws. */
const covariance = ({ always, each }: Drawn, from: Float64Array, sum: number): number =>
  each === null ? always * sum : dot(each, from);

/** In four sums side by side, which the processor can add at the same time. */
function dot(left: Float64Array, right: Float64Array): number {
  let [a, b, c, d] = [0, 0, 0, 0];
  const whole = left.length - (left.length % 4);
  for (let at = 0; at < whole; at += 4) {
    a += (left[at] ?? 0) * (right[at] ?? 0);
    b += (left[at + 1] ?? 0) * (right[at + 1] ?? 0);
    c += (left[at + 2] ?? 0) * (right[at + 2] ?? 0);
    d += (left[at + 3] ?? 0) * (right[at + 3] ?? 0);
  }
  for (let at = whole; at < left.length; at++) a += (left[at] ?? 0) * (right[at] ?? 0);
  return a + b + c + d;
}

function sumOf(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}

function product(left: Float64Array, right: Float64Array): Float64Array {
  const result = new Float64Array(left.length);
  for (let at = 0; at < left.length; at++) result[at] = (left[at] ?? 0) * (right[at] ?? 0);
  return result;
}
