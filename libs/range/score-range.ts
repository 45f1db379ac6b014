import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { divideHalfUp } from '#libs/money';
import type { Range } from './range-input.js';

export type Quantiles = Pick<Range, 'p10Cents' | 'p50Cents' | 'p80Cents' | 'p95Cents'>;

export const BANDS = ['to-p10', 'p10-to-p50', 'p50-to-p80', 'p80-to-p95', 'above-p95'] as const;
export type Band = (typeof BANDS)[number];

export interface RangeScore {
  readonly actualCents: Cents;
  /** The total stayed at or below P80. */
  readonly p80Held: boolean;
  readonly band: Band;
  /** Above P80; zero where it held. */
  readonly overCents: Cents;
  /** The actual less P50: how far off the middle was. */
  readonly fromP50Cents: Cents;
  /**
   * Mean of the quantile losses: a cent above a quantile of level t costs t, a cent below it 1 - t. Over many jobs it is
   * least for whoever states the true quantiles, so neither a wide nor a narrow range is rewarded for itself
   * (T. Gneiting and A. E. Raftery, "Strictly Proper Scoring Rules", JASA 102, 2007, section 6; from memory).
   */
  readonly lossCents: Cents;
}

/** How the range of a job did, once its total is known. */
export function scoreRange(range: Quantiles, actual: Cents): RangeScore {
  const { p10Cents, p50Cents, p80Cents, p95Cents } = range;
  const levels: [Cents, number][] = [
    [p10Cents, 10],
    [p50Cents, 50],
    [p80Cents, 80],
    [p95Cents, 95],
  ];
  const passed = levels.filter(([quantile]) => actual > quantile).length;
  const loss = levels.reduce((sum, [quantile, percent]) => {
    const above = BigInt(actual) - BigInt(quantile);
    return sum + (above > 0n ? above * BigInt(percent) : -above * BigInt(100 - percent));
  }, 0n);
  return {
    actualCents: actual,
    p80Held: actual <= p80Cents,
    band: BANDS[passed] ?? 'above-p95',
    overCents: cents(Math.max(0, actual - p80Cents)),
    fromP50Cents: cents(actual - p50Cents),
    lossCents: cents(Number(divideHalfUp(loss, BigInt(levels.length * 100)))),
  };
}
