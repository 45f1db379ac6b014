import type { PlanAssignment } from './plan-problem.js';

/** Parts of the objective; the earlier ones decide first, `lateness` and `change` as one sum by the shop's weights. */
export interface PlanCost {
  /** Operations that have no place in the plan. */
  readonly unplaced: number;
  /** Operations of the frozen time that lost their place. */
  readonly frozenMoved: number;
  /** Minutes after the promised times, each times its repair order's weight. */
  readonly lateness: number;
  /** Change against the previous plan, in minutes of lateness (see `PlanWeights`). */
  readonly change: number;
  /** Minutes in which a torn down vehicle holds a bay and nobody's operation on it is under way. */
  readonly blocked: number;
  /** The sum of the times at which the repair orders are ready. */
  readonly finish: number;
}

export interface Unplaced {
  readonly operation: string;
  readonly why: string;
}

export interface Plan {
  readonly assignments: readonly PlanAssignment[];
  readonly unplaced: readonly Unplaced[];
}

export interface PlanAnswer extends Plan {
  readonly cost: PlanCost;
  /** No plan has less lateness. */
  readonly latenessBound: number;
  /** Schedules that were looked at. */
  readonly looked: number;
  /** Milliseconds to the first plan and to the last one that was better, by the caller's clock. */
  readonly firstMs: number;
  readonly bestMs: number;
}

export interface PlanEffort {
  readonly timeLimitMs: number;
  /** Milliseconds, from anywhere. */
  readonly now: () => number;
  readonly seed: number;
  /** Ends the search after so many schedules; with it and no shortage of time the answer depends on the seed alone. */
  readonly lookLimit?: number;
}
