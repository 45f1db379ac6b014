import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { suppliesCharge } from '#libs/money';
import type { AlreadyAgreed } from './already-agreed.js';
import type { PricingPolicy } from './pricing-policy.js';

/** What supplies are a share of, from labour and from parts with fluids, both after discounts. */
export function suppliesBase(supplies: PricingPolicy['supplies'], labour: number, parts: number): number {
  const base = supplies?.base ?? 'labour';
  return (base === 'parts' ? 0 : labour) + (base === 'labour' ? 0 : parts);
}

/**
 * Shop supplies that a choice adds: the charge on the whole base, that which was agreed to before included, less the
 * charge agreed to before; so that floor and cap hold once for the whole repair order. Never negative, and nothing
 * without a new base: an owner who adds what supplies do not follow is not charged for a policy that has changed since.
 */
export function suppliesOfChoice(
  base: number,
  given: AlreadyAgreed,
  supplies: PricingPolicy['supplies'],
): Cents {
  if (supplies === null || base === 0) return cents(0);
  const all = suppliesCharge({
    labourCents: cents((given.suppliesBaseCents ?? given.labourCents) + base),
    ratePpm: supplies.ratePpm,
    floorCents: supplies.floorCents,
    capCents: supplies.capCents ?? undefined,
  });
  return cents(Math.max(0, all - given.suppliesCents));
}
