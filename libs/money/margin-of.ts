import { ppm, type Cents, type Ppm } from '#libs/kernel';
import { divideHalfUp } from './divide-half-up.js';

/** Margin = (price - cost) / price, half up to the millionth; null when the price is zero. Markup m gives m / (1 + m). */
export function marginOf(cost: Cents, price: Cents): Ppm | null {
  if (price === 0) return null;
  return ppm(Number(divideHalfUp((BigInt(price) - BigInt(cost)) * 1_000_000n, BigInt(price))));
}
