import type { PlanProblem } from './plan-problem.js';
import type { Rota } from './rota.js';
import type { Rows } from './rows.js';

/**
 * A problem as numbers. Operations, repair orders, technicians, bays, tools and holds (see `holdsOf`) are counted from 0
 * in the order of the problem. A resource is a technician, a bay, a tool or a car: `bay0`, `tool0`, `car0` say where
 * each kind begins.
 */
export interface PlanModel {
  readonly problem: PlanProblem;
  readonly ids: readonly string[];
  readonly operations: number;
  readonly orders: number;
  readonly technicians: number;
  readonly bays: number;
  readonly bay0: number;
  readonly tool0: number;
  readonly car0: number;
  readonly resources: number;
  readonly rota: Rota;

  /** Minutes before a promised time in which being ready counts as nearly late: some operations could still go wrong. */
  readonly near: number;

  // One entry for each operation.
  readonly order: Int32Array;
  readonly release: Int32Array;
  /** The least that is left to do after it. */
  readonly tail: Int32Array;
  readonly shortest: Int32Array;
  readonly hold: Int32Array;
  readonly needsLift: Uint8Array;
  readonly before: Rows;
  readonly after: Rows;
  /** Its crews: indexes into the arrays below. */
  readonly crewFirst: Int32Array;
  readonly crewLead: Int32Array;
  readonly crewHelper: Int32Array;
  readonly crewMinutes: Int32Array;
  readonly crewUntil: Int32Array;
  readonly crewCalendar: Int32Array;
  /** For each tool that it needs, the kind. */
  readonly toolKinds: Rows;
  readonly unitsOfKind: Rows;
  /** Its pinned start, -1 when it has none, and whether the people and the bay for it are kept free. */
  readonly pinStart: Int32Array;
  readonly reserved: Uint8Array;
  /** 1 for work that was started. */
  readonly isStarted: Uint8Array;
  /** 1 for work that cannot be done at all as things stand (`hopelessOf`). */
  readonly isHopeless: Uint8Array;

  // One entry for each hold.
  readonly holds: number;
  readonly holdBays: Rows;
  readonly holdSize: Int32Array;
  /** Counts the holds of several operations, -1 for others. */
  readonly several: Int32Array;
  readonly severals: number;
  readonly liftUntil: Int32Array;
  /** The least time from the first to the last operation of a hold, where nothing of it was started. */
  readonly holdSpan: Int32Array;

  // One entry for each repair order.
  readonly due: Int32Array;
  readonly weight: Int32Array;
  /** Where operation i of the order stands among them, and who must come before whom (`reachOf`). */
  readonly orderFirst: Int32Array;
  readonly orderEnd: Int32Array;
  readonly reach: readonly Uint8Array[];

  /** Times in which a resource is closed to all but one owner; three entries each: from, to, owner. */
  readonly closed: Rows;
  readonly hasClosed: boolean;

  readonly started: readonly StartedWork[];
  readonly previous: PreviousPlan;
}

export interface StartedWork {
  readonly operation: number;
  readonly start: number;
  readonly end: number;
  readonly bay: number;
  readonly technicians: readonly number[];
  readonly tools: readonly number[];
}

/** The previous plan, -1 where it has nothing, and what a change costs in `PER_MINUTE`ths of a minute. */
export interface PreviousPlan {
  readonly any: boolean;
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly lead: Int32Array;
  readonly helper: Int32Array;
  readonly bay: Int32Array;
  readonly crew: Int32Array;
  /** Its units of tools, in the places of `toolKinds`. */
  readonly unit: Int32Array;
  readonly isFrozen: Uint8Array;
  readonly moved: Int32Array;
  readonly minuteMoved: Int32Array;
  readonly technician: Int32Array;
  readonly bayChanged: Int32Array;
}

/** Costs are counted in whole parts of a minute of lateness, so that the closeness of a change stays a whole number. */
export const PER_MINUTE = 600;
