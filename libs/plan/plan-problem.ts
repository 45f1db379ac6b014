/**
 * What is to be planned, as plain JSON. Times are whole minutes from an origin that the caller picks; every period is
 * half-open `[from, to)`. The caller has turned shifts, breaks, holidays and the nights on which clocks change into
 * such periods already, so that here a minute is a minute.
 */
export interface PlanProblem {
  /** Nothing that has not been started may start earlier. */
  readonly now: number;
  /** Work that the previous plan starts before this keeps its place unless it cannot. */
  readonly frozenUntil?: number | null;
  readonly technicians: readonly PlanTechnician[];
  readonly bays: readonly PlanBay[];
  readonly tools?: readonly PlanTool[];
  readonly repairOrders: readonly PlanRepairOrder[];
  /** What was promised before; what it leaves out is new. */
  readonly previous?: readonly PlanAssignment[] | null;
  readonly weights?: Partial<PlanWeights>;
}

export type Period = readonly [from: number, to: number];

export interface PlanTechnician {
  readonly id: string;
  /** When they work, in order and apart. Work rests outside and goes on in the next period. */
  readonly works: readonly Period[];
  /** When they are taken by something else; unlike outside their shifts no work of theirs goes on across it. */
  readonly engaged?: readonly Period[];
  readonly skills?: readonly PlanSkill[];
}

export interface PlanSkill {
  readonly skill: string;
  /** Work that needs it must be over by then; null or left out when the certificate does not expire. */
  readonly until?: number | null;
}

export interface PlanBay {
  readonly id: string;
  readonly kind?: string;
  readonly maxHeightMm?: number | null;
  readonly lift?: PlanLift | null;
  /** No vehicle stands in it then, resting work included. */
  readonly outOfService?: readonly Period[];
}

export interface PlanLift {
  readonly kind: string;
  readonly capacityKg: number;
  /** Lift work must be over by then (the next inspection is due). */
  readonly until?: number | null;
}

/** One unit of a special tool. */
export interface PlanTool {
  readonly id: string;
  readonly kind: string;
  readonly outOfService?: readonly Period[];
}

export interface PlanRepairOrder {
  readonly id: string;
  /** When the owner was told that the car is ready; null when nothing was said. */
  readonly promised?: number | null;
  /** What a minute of lateness weighs; 1 when left out. */
  readonly weight?: number;
  /** When the vehicle comes; no work before. */
  readonly arrives?: number | null;
  readonly vehicle?: { readonly weightKg?: number | null; readonly heightMm?: number | null };
  readonly operations: readonly PlanOperation[];
}

export interface PlanOperation {
  /** One of its kind in the whole problem. */
  readonly id: string;
  /** Expected working time, at least 1. */
  readonly minutes: number;
  /** Working time of those who need another. Of two, the longer counts. */
  readonly minutesBy?: Readonly<Record<string, number>>;
  /** Working time that is kept in four of five cases; left out, the time is taken as sure. */
  readonly minutesP80?: number;
  /** Operations of the same repair order that must be over. */
  readonly after?: readonly string[];
  /** When its parts are there. */
  readonly earliest?: number | null;
  /** The place it needs; null or left out when it is done off the car. One operation at a time is done in a bay. */
  readonly bay?: BayNeed | null;
  /** Certificates and skills of the one who leads. */
  readonly skills?: readonly string[];
  /** Two work together throughout; the second needs `helperSkills` only. */
  readonly crew?: 1 | 2;
  readonly helperSkills?: readonly string[];
  /** Special tools by kind, one unit for each entry. */
  readonly tools?: readonly string[];
  /**
   * Operations of a repair order with the same word here are one teardown: the vehicle keeps its bay from the start of
   * the first to the end of the last.
   */
  readonly teardown?: string | null;
  /** Work that was started, over or not, with the end that is expected now. It does not move. */
  readonly started?: PlanPlace | null;
  /** What a person has laid down; each thing that is given must be met. */
  readonly pin?: PlanPin | null;
}

export interface BayNeed {
  readonly lift?: boolean;
  readonly liftKind?: string | null;
  /** Kinds of bay that will do; empty or left out when any will. */
  readonly kinds?: readonly string[];
}

export interface PlanPin {
  readonly start?: number | null;
  readonly bay?: string | null;
  readonly technicians?: readonly string[] | null;
}

export interface PlanPlace {
  readonly start: number;
  readonly end: number;
  readonly bay: string | null;
  /** The one who leads first. */
  readonly technicians: readonly string[];
  readonly tools: readonly string[];
}

export interface PlanAssignment extends PlanPlace {
  readonly operation: string;
}

/**
 * How the shop trades one thing for another, all in minutes of lateness of weight 1. A change is scaled by its
 * closeness: whole for what would have started within `nearMinutes` from now, 3/10 of it later.
 */
export interface PlanWeights {
  readonly lateness: number;
  readonly startMoved: number;
  readonly hourMoved: number;
  readonly technicianChanged: number;
  readonly bayChanged: number;
  readonly nearMinutes: number;
}

/**
 * Another start is what people arranged their day around; another bay costs little before the car is in it. Ours: common
 * practice, no source.
 */
export const USUAL_WEIGHTS: PlanWeights = {
  lateness: 1,
  startMoved: 60,
  hourMoved: 10,
  technicianChanged: 30,
  bayChanged: 10,
  nearMinutes: 2880,
};
