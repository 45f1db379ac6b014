/**
 * Ids of the cautions, stable: operations and work orders store them. A new text gets a new id only if it means
 * something else.
 */
export const CAUTION_IDS = [
  'LIFT-01',
  'LIFT-02',
  'LIFT-03',
  'LIFT-04',
  'LIFT-05',
  'LIFT-06',
  'LIFT-07',
  'HV-01',
  'HV-02',
  'SRS-01',
  'FUEL-01',
  'AC-01',
  'CO-01',
  'ASB-01',
  'SPRING-01',
  'WHEEL-01',
  'HAZ-01',
  'STALL-01',
] as const;
export type CautionId = (typeof CAUTION_IDS)[number];

export interface Caution {
  readonly id: CautionId;
  readonly text: string;
  /** Where the caution comes from. */
  readonly source: string;
  /** `read`: the source was read for this text; `memory`: it was not at hand; `own`: a rule of this program. */
  readonly basis: 'read' | 'memory' | 'own';
}

/** Stands beside every list of cautions. */
export const CAUTIONS_DEFER =
  "The vehicle maker's procedure comes first, then local codes and licensed or certified people. These cautions do not replace them.";

export function isCautionId(text: string): text is CautionId {
  return (CAUTION_IDS as readonly string[]).includes(text);
}
