/** One job's two figures, such as book hours above clocked hours. */
export interface RatioPart {
  readonly above: number;
  readonly below: number;
}

/**
 * Sum above over sum below: what the jobs cost together. The mean of the single ratios would let one short job outweigh
 * a long one. Null when nothing stands below.
 *
 * Source: W. G. Cochran, "Sampling Techniques", ratio estimator.
 */
export function ratioOfTotals(parts: readonly RatioPart[]): number | null {
  const above = parts.reduce((sum, part) => sum + part.above, 0);
  const below = parts.reduce((sum, part) => sum + part.below, 0);
  return below === 0 ? null : above / below;
}
