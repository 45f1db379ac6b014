import { fraction } from './parts-of.js';
import type { RangeSupplies } from './range-input.js';

const { max, min } = Math;

/**
 * The supplies of one draw on its base, tax left out: the charge on all that was agreed to before and comes now, less the
 * charge agreed to before; nothing on nothing. As the estimate charges it (`priceChoice`), without rounding.
 */
export function suppliesOfDraw(supplies: RangeSupplies | null): (base: number) => number {
  if (supplies === null) return () => 0;
  const { floorCents, givenBaseCents, givenSuppliesCents } = supplies;
  const rate = fraction(supplies.ratePpm);
  const cap = supplies.capCents ?? Infinity;
  return (base) => {
    if (base <= 0) return 0;
    return max(0, min(cap, max(floorCents, rate * (givenBaseCents + base))) - givenSuppliesCents);
  };
}

/** What a cent of base makes of the total by way of supplies, floor and cap left aside. */
export function perBase(supplies: RangeSupplies | null): number {
  return supplies === null ? 0 : fraction(supplies.ratePpm) * (1 + fraction(supplies.taxPpm));
}
