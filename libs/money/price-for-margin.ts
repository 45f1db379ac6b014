import { cents, fail, ok, type Cents, type Fault, type Ppm, type Result } from '#libs/kernel';
import { divideHalfUp } from './divide-half-up.js';

export type MarginFault = Fault<'margin-invalid'>;

/** Nearer to the whole price than this, the price passes what can be kept exactly; far beyond what any shop asks. */
const LARGEST_MARGIN = 999_000;

/**
 * The price at which something bought at `cost` leaves `margin` of the price: cost / (1 - margin), half up. The whole
 * price as margin has no answer unless the cost is nothing, so it is refused.
 */
export function priceForMargin(cost: Cents, margin: Ppm): Result<Cents, MarginFault> {
  if (margin < 0 || margin > LARGEST_MARGIN) {
    return fail(
      'margin-invalid',
      'A margin is a part of the price, from 0 to 99.9 percent: a markup is a part of the cost and may be more.',
    );
  }
  return ok(cents(Number(divideHalfUp(BigInt(cost) * 1_000_000n, 1_000_000n - BigInt(margin)))));
}
