import type { PlanProblem, PlanRepairOrder } from '#libs/plan';
import type { Tx } from '../../../platform/database/tx.js';
import type { ExpectedItem } from './overdue.js';

/** How the shop wants its plan made. */
export const PLAN_MODES = ['by-hand', 'propose', 'apply'] as const;
export type PlanMode = (typeof PLAN_MODES)[number];

/** One unit of a special tool. */
export interface ToolUnit {
  readonly toolId: string;
  readonly unit: number;
}

/** A place as it is stored, with the minutes that it has in the problem. */
export interface StoredPlace {
  readonly assignmentId: string;
  readonly version: number;
  /** Null for work of a reservation. */
  readonly workOrderId: string | null;
  readonly bayId: string;
  readonly technicianId: string;
  readonly startsAt: Date;
  readonly endsAt: Date;
  /** Until when the car that is apart keeps the bay; null when that is `endsAt`. */
  readonly bayUntil: Date | null;
  readonly tools: readonly ToolUnit[];
  readonly isPinned: boolean;
  /** The run of the plan that gave it, or the person; one of the two. */
  readonly planRunId: string | null;
  readonly madeBy: string | null;
  /** `startsAt` and `endsAt` as minutes of the problem. */
  readonly start: number;
  readonly end: number;
}

/** What a place would be stored as. */
export interface PlannedPlace {
  /** The operation of the problem; for a work order its id. */
  readonly operation: string;
  readonly workOrderId: string | null;
  readonly bayId: string;
  readonly technicianId: string;
  readonly startsAt: Date;
  readonly endsAt: Date;
  /** Later than `endsAt`, or null. */
  readonly bayUntil: Date | null;
  readonly tools: readonly ToolUnit[];
}

/** What people read of an open work order. */
export interface PlannedWorkOrder {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly repairOrderId: string;
  readonly repairOrderNumber: number;
  readonly vehicleLabel: string;
  readonly plate: string | null;
  readonly promisedAt: Date | null;
  readonly isOnTheClock: boolean;
  /** Names of parts and sublets that are still out. */
  readonly partsOut: readonly string[];
  /** Those of them for which a time was told. */
  readonly partsExpected: readonly ExpectedItem[];
}

/** Open work that is not in the problem. A place that it has is to be given up, unless a person laid it down. */
export interface NotPlannable {
  readonly workOrderId: string;
  readonly number: number;
  readonly why: string;
}

/** What somebody should know about the plan as a whole, or about one work order or technician in it. */
export interface PlanNote {
  readonly about: 'work-order' | 'technician' | 'bay' | 'shop';
  readonly id: string | null;
  readonly words: string;
}

/** Work that another module brings into the plan, beside the work orders. */
export interface PlanContribution {
  /** Times in minutes of the horizon that was given; ids of operations are one of their kind in the shop. */
  readonly repairOrders: readonly PlanRepairOrder[];
  /** What people read instead of an id, by id of an operation or repair order. */
  readonly names: ReadonlyMap<string, string>;
  /** The places that its operations have now, by operation. */
  readonly places?: ReadonlyMap<string, Omit<StoredPlace, 'start' | 'end'>>;
  readonly notes?: readonly PlanNote[];
}

/** The times that a plan reaches over, and what a minute of the problem is. */
export interface PlanHorizon {
  /** Minute 0. */
  readonly origin: Date;
  /** The first whole minute that is not over. */
  readonly now: number;
  /** Calendars end here. */
  readonly until: number;
  readonly timeZone: string;
  /** The first whole minute that is not before the instant. */
  readonly minuteOf: (instant: Date) => number;
  readonly instantOf: (minute: number) => Date;
}

export type PlanContributor = (tx: Tx, horizon: PlanHorizon) => Promise<PlanContribution>;

/** The shop's plan as a problem, with everything that leads back to what is stored. */
export interface ShopPlan {
  readonly problem: PlanProblem;
  readonly horizon: PlanHorizon;
  readonly mode: PlanMode;
  /** Open work orders, in the problem or not, by id. */
  readonly workOrders: ReadonlyMap<string, PlannedWorkOrder>;
  /**
   * The places that are stored, by operation: of all open work, also where it is not plannable, of contributed work, and
   * of finished work whose place still reaches over now or keeps a bay.
   */
  readonly assignmentOf: ReadonlyMap<string, StoredPlace>;
  /** Finished work among `assignmentOf`: only its `bayUntil` can still change. */
  readonly finished: readonly FinishedPlace[];
  /** From when work on the clock has its place, where that is not the start of its stored place. */
  readonly begunAt: ReadonlyMap<string, Date>;
  /** By id: operations, repair orders, technicians, bays, units of tools, kinds of tools. */
  readonly names: ReadonlyMap<string, string>;
  readonly notPlannable: readonly NotPlannable[];
  readonly notes: readonly PlanNote[];
}

export interface FinishedPlace {
  readonly workOrderId: string;
  readonly repairOrderId: string;
  /** The teardown that it belongs to, null when it belongs to none that is open. */
  readonly teardown: string | null;
}
