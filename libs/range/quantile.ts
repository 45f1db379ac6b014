/**
 * The least of the sorted values that at least `percent` of all do not exceed: the inverse of the empirical distribution
 * function (R. J. Hyndman and Y. Fan, "Sample Quantiles in Statistical Packages", The American Statistician 50, 1996,
 * definition 1). It is one of the values, so it says of itself how many draws stayed at or below it.
 */
export function quantile(sorted: Float64Array, percent: number): number {
  const rank = Math.ceil((sorted.length * percent) / 100);
  return sorted[Math.max(0, rank - 1)] ?? 0;
}
