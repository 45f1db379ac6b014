import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { suppliesCharge } from '#libs/money';
import type { AlreadyAgreed } from './already-agreed.js';
import type { PricingPolicy } from './pricing-policy.js';

/**
 * Shop supplies that a choice adds: the charge on all labour, that which was agreed to before included, less the charge
 * agreed to before; so that floor and cap hold once for the whole repair order. Never negative, and nothing without new
 * labour: an owner who adds a part only is not charged for a policy that has changed since.
 */
export function suppliesOfChoice(
  labour: Cents,
  given: AlreadyAgreed,
  supplies: PricingPolicy['supplies'],
): Cents {
  if (supplies === null || labour === 0) return cents(0);
  const all = suppliesCharge({
    labourCents: cents(given.labourCents + labour),
    ratePpm: supplies.ratePpm,
    floorCents: supplies.floorCents,
    capCents: supplies.capCents ?? undefined,
  });
  return cents(Math.max(0, all - given.suppliesCents));
}
