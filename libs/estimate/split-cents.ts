import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { allocate } from '#libs/money';

/**
 * `allocate` for whole weights, without the detour over large integers where the products are safe: an estimate splits
 * hundreds of amounts at once. Equal to it in every part.
 */
export function splitCents(total: number, weights: readonly number[]): Cents[] {
  let whole = 0;
  let most = 0;
  for (const weight of weights) {
    whole += weight;
    if (weight > most) most = weight;
  }
  if (total === 0) return weights.map(() => cents(0));
  if (whole === 0 || total < 0 || total * most > Number.MAX_SAFE_INTEGER)
    return allocate(cents(total), weights);
  const remainders = weights.map((weight) => (total * weight) % whole);
  const parts = weights.map((weight, at) => (total * weight - (remainders[at] ?? 0)) / whole);
  const left = total - parts.reduce((sum, part) => sum + part, 0);
  if (left > 0) {
    const order = [...parts.keys()].sort((a, b) => (remainders[b] ?? 0) - (remainders[a] ?? 0) || a - b);
    for (const at of order.slice(0, left)) parts[at] = (parts[at] ?? 0) + 1;
  }
  return parts.map(cents);
}
