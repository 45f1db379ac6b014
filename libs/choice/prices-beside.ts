import { cents } from '#libs/kernel';
import type { PriceModel } from './price-model.js';

/**
 * What a set costs beside lines that are taken already: the price of both together less that of the taken ones. Right to
 * the cent where the owner will pay one price for both, as long as none of them has begun. A rounding that goes the other
 * way cannot make it less than nothing. The indices stay the same; the taken ones may not be asked for.
 */
export function pricesBeside({ exact, lowers }: PriceModel, taken: readonly number[]): PriceModel {
  if (taken.length === 0) return { exact, lowers };
  const isTaken = new Set(taken);
  const before = exact([...taken].sort((a, b) => a - b));
  return {
    exact: (lines) =>
      cents(Math.max(0, exact([...new Set([...taken, ...lines])].sort((a, b) => a - b)) - before)),
    lowers: lowers.flatMap(({ base, own, shared, slack, within }) => {
      if (within?.out.some((line) => isTaken.has(line)) === true) return [];
      const isPaid = (lines: readonly number[]): boolean => lines.some((line) => isTaken.has(line));
      const paid = shared.reduce((sum, { amount, lines }) => (isPaid(lines) ? sum + amount : sum), 0);
      const theirs = taken.reduce((sum, line) => sum + (own[line] ?? 0), 0);
      return [
        {
          base: base + paid + theirs - before,
          own: own.map((amount, line) => (isTaken.has(line) ? 0 : amount)),
          shared: shared.filter(({ lines }) => !isPaid(lines)),
          slack,
          ...(within && { within: { in: within.in.filter((line) => !isTaken.has(line)), out: within.out } }),
        },
      ];
    }),
  };
}
