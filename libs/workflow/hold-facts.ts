import type { FloorBay, FloorNeeds, FloorTechnician, FloorVehicle } from '#libs/schedule';

/** Everything that can keep a work order from starting now, as it is stored. */
export interface HoldFacts {
  /** The latest answer to its line is a yes. */
  readonly approved: boolean;
  readonly parts: readonly PartSituation[];
  readonly needs: FloorNeeds;
  readonly vehicle: FloorVehicle;
  readonly bays: readonly (FloorBay & BayUse)[];
  readonly technicians: readonly TechnicianSituation[];
  readonly tools: readonly ToolSituation[];
  readonly earlier: readonly { readonly title: string; readonly finished: boolean }[];
  readonly sublets: readonly SubletSituation[];
  /** Today in the shop's zone, ISO date: certificates and lift inspections must be good on it. */
  readonly today: string;
}

export interface PartSituation {
  readonly name: string;
  /** Whole hundredths of the part's unit. */
  readonly neededHundredths: number;
  readonly receivedHundredths: number;
  /** When it is expected, as it is to be shown; null when nobody knows. */
  readonly expectedAt: string | null;
  /** That time has passed. */
  readonly isOverdue?: boolean;
}

export interface TechnicianSituation extends FloorTechnician {
  /** Until when they are away now, as it is to be shown; null or left out when they are here. */
  readonly awayUntil?: string | null;
}

export interface BayUse {
  /** The bay's present occupant: a car that is already in a bay does not wait for it. */
  readonly occupant: 'none' | 'this-vehicle' | 'another-vehicle';
  /** When it is planned to be free, as it is to be shown; null when nobody knows or it is free. */
  readonly freeAt: string | null;
}

export interface ToolSituation {
  /** The kind of special tool. */
  readonly tool: string;
  /** Units in service. */
  readonly units: number;
  readonly unitsInUse: number;
  readonly freeAt: string | null;
}

export interface SubletSituation {
  readonly title: string;
  readonly returned: boolean;
  readonly dueAt: string | null;
  /** That time has passed. */
  readonly isOverdue?: boolean;
}

export const HOLD_KINDS = [
  'decision',
  'parts',
  'bay',
  'technician',
  'tool',
  'earlier-work-order',
  'sublet',
] as const;
export type HoldKind = (typeof HOLD_KINDS)[number];

/** One reason why a work order cannot start now, in plain words; `until` is when it is expected to be gone. */
export interface Hold {
  readonly kind: HoldKind;
  readonly detail: string;
  readonly until?: string;
}
