/**
 * Round amounts (1, 2 or 5 times a power of ten) from at or below `low` to at or above `high`, about `count` steps
 * apart; the ends are what an axis shows. Amounts in cents, never finer than one unit of money.
 */
export function niceTicks(low: number, high: number, count: number): number[] {
  const rough = Math.max((high - low) / count, 100);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((factor) => factor * power >= rough) ?? 10) * power;
  const first = Math.floor(low / step);
  const last = Math.max(Math.ceil(high / step), first + 1);
  return Array.from({ length: last - first + 1 }, (_, n) => (first + n) * step);
}
