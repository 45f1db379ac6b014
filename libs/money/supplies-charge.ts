import { cents, type Cents, type Ppm } from '#libs/kernel';
import { portionOf } from './portion-of.js';

export interface SuppliesTerms {
  /** What the percentage is taken of: labour, or whatever the shop chose as its base. */
  readonly labourCents: Cents;
  readonly ratePpm: Ppm;
  /** The most that is charged, whatever the base; it also wins over a floor that was set above it. */
  readonly capCents?: Cents;
  /** The least that is charged once there is any base at all. */
  readonly floorCents?: Cents;
}

/** Shop supplies as a percentage with a floor and a cap; nothing on a base of nothing; a credit mirrors the charge. */
export function suppliesCharge({ labourCents, ratePpm, capCents, floorCents }: SuppliesTerms): Cents {
  if (labourCents === 0) return cents(0);
  const rated = Math.abs(portionOf(labourCents, ratePpm));
  const raised = Math.max(rated, floorCents ?? 0);
  const charge = Math.min(raised, capCents ?? raised);
  return cents(labourCents < 0 ? -charge : charge);
}
