/** The middle value, or the mean of the two middle ones; null of nothing. The input is left as it is. */
export function median(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)];
  const lower = sorted[Math.ceil(sorted.length / 2) - 1];
  if (upper === undefined || lower === undefined) return null;
  return lower + (upper - lower) / 2;
}
