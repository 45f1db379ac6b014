import { CAUTIONS } from './caution-catalogue.js';
import { isCautionId, type Caution, type CautionId } from './caution.js';

/** The skill of people certified for refrigerant work: section 609 of the Clean Air Act, 40 CFR 82.34. */
export const REFRIGERANT_SKILL = '609';

/** What is known about a car and the work on it. */
export interface CautionFacts {
  readonly drivetrain: 'combustion' | 'hybrid' | 'electric';
  readonly needsLift: boolean;
  /** Skills that the work asks for. */
  readonly skills: readonly string[];
  /** Ids that the shop put on its operations. Unknown ones are left out. */
  readonly chosen: readonly string[];
  /** The work touches the steering column, dash, seats, pillars or the restraints themselves. */
  readonly nearRestraints?: boolean;
  /** The work opens fuel lines, or a finding says that fuel leaks. */
  readonly fuelMayEscape?: boolean;
  /** A finding says that the car may not be driven. */
  readonly unsafe?: boolean;
}

/**
 * The cautions of a ticket, each once, in the order of the catalogue. What the shop chose for its operations stays, and
 * what follows from the facts is added, so that leaving one out of the catalogue cannot hide it. Show them with
 * `CAUTIONS_DEFER`.
 */
export function cautionsFor(facts: CautionFacts): Caution[] {
  const ids = new Set<CautionId>(facts.chosen.filter(isCautionId));
  const when = (holds: boolean | undefined, ...shown: CautionId[]): void => {
    if (holds === true) for (const id of shown) ids.add(id);
  };
  when(facts.drivetrain !== 'combustion', 'HV-01', 'HV-02');
  when(facts.nearRestraints, 'SRS-01');
  when(facts.skills.includes(REFRIGERANT_SKILL), 'AC-01');
  when(facts.fuelMayEscape, 'FUEL-01');
  when(facts.needsLift, 'LIFT-01', 'LIFT-02', 'LIFT-06');
  when(facts.unsafe, 'STALL-01');
  return CAUTIONS.filter(({ id }) => ids.has(id));
}
