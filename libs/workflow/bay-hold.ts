import { bayFaults } from '#libs/schedule';
import type { Hold, HoldFacts } from './hold-facts.js';

type BayFacts = Pick<HoldFacts, 'needs' | 'vehicle' | 'bays' | 'today'>;

/** Why no bay could take it even if all stood empty: the reason that the bays name most simply. */
function noneSuitable({ needs, vehicle, bays }: BayFacts): string {
  const inService = bays.filter((bay) => bay.inService);
  if (inService.length === 0) return 'No bay is in service.';
  if (!needs.lift) return 'No bay in service suits this work.';
  const lifts = inService.flatMap(({ lift }) => (lift === null ? [] : [lift]));
  if (lifts.length === 0) return 'This work needs a lift and no lift is in service.';
  if (vehicle.weightKg === null)
    return 'The weight of the vehicle is not recorded, so it may not go on a lift.';
  const strongest = Math.max(...lifts.map((lift) => lift.capacityKg));
  if (strongest < vehicle.weightKg) {
    return `No lift in service carries ${vehicle.weightKg} kg; the strongest is rated for ${strongest} kg.`;
  }
  const kind = needs.liftKind === null ? '' : ` ${needs.liftKind}`;
  return `No${kind} lift that carries ${vehicle.weightKg} kg is in service with a current inspection.`;
}

/** The hold for want of a bay: none that suits, or all that suit taken by other vehicles now. Null when one is free. */
export function bayHold(facts: BayFacts): Hold | null {
  const suitable = facts.bays.filter(
    (bay) => bayFaults(facts.needs, facts.vehicle, bay, facts.today).length === 0,
  );
  if (suitable.length === 0) return { kind: 'bay', detail: noneSuitable(facts) };
  if (suitable.some((bay) => bay.occupant !== 'another-vehicle')) return null;
  const names = suitable.map((bay) => bay.name).join(', ');
  const [until] = suitable.flatMap(({ freeAt }) => (freeAt === null ? [] : [freeAt])).sort();
  const taken = suitable.length === 1 ? `${names} is taken` : `All bays that suit are taken (${names})`;
  if (until === undefined) return { kind: 'bay', detail: `${taken}.` };
  return { kind: 'bay', detail: `${taken}; the first is free at ${until}.`, until };
}
