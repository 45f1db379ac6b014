/** What a work order asks of the floor. */
export interface FloorNeeds {
  readonly lift: boolean;
  /** A kind of lift in the shop's own words, or null when any lift will do. */
  readonly liftKind: string | null;
  /** Kinds of bay in which it may be done; empty or left out when any will do. */
  readonly bayKinds?: readonly string[];
  readonly skills: readonly string[];
  /** Special tools, by kind. */
  readonly tools: readonly string[];
}

export interface FloorVehicle {
  /** Whole kilograms as it stands, or null when nobody has recorded it. */
  readonly weightKg: number | null;
  /** Whole millimetres; null or left out when nobody has measured it. */
  readonly heightMm?: number | null;
}

export interface FloorBay {
  readonly name: string;
  readonly inService: boolean;
  /** What kind of place it is, in the shop's own words (lift, flat, alignment). */
  readonly kind?: string;
  /** The highest vehicle that goes in, whole millimetres; null or left out when it is not limited. */
  readonly maxHeightMm?: number | null;
  readonly lift: FloorLift | null;
}

export interface FloorLift {
  readonly kind: string;
  /** Rated capacity, whole kilograms. */
  readonly capacityKg: number;
  /** ISO date of the last inspection by a qualified lift inspector; null when there is none on record. */
  readonly inspectedOn: string | null;
}

export interface FloorTechnician {
  readonly name: string;
  readonly active: boolean;
  readonly skills: readonly HeldSkill[];
}

export interface HeldSkill {
  readonly skill: string;
  /** The last day (ISO date, shop's zone) on which the certificate is good; null when it does not expire. */
  readonly expiresOn: string | null;
}

export interface FloorTool {
  readonly name: string;
  /** Which kind of special tool this is. */
  readonly tool: string;
  readonly inService: boolean;
}
