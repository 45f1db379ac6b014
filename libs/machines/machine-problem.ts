/** One way to do an operation: on which machine, and for how long there. */
export interface MachineAlternative {
  /** From 0 up to one less than the problem's machines. */
  readonly machine: number;
  /** A whole number of time units from zero up; the unit is the caller's. */
  readonly duration: number;
}

/** An operation is done once, without a break, on one machine of its choice; it has at least one alternative. */
export type MachineOperation = readonly MachineAlternative[];

/**
 * A job shop, or a flexible one where an operation has several alternatives: the operations of a job are done one
 * after the other in their order, a machine does one operation at a time, and the last job should be finished early.
 */
export interface MachineProblem {
  /** How many machines there are. */
  readonly machines: number;
  readonly jobs: readonly (readonly MachineOperation[])[];
}

/** How long to look and by which clock. Bounded by `maxIterations` alone, the answer depends on the seed only. */
export interface MachineEffort {
  /** Milliseconds of `now`. */
  readonly timeLimitMs: number;
  /** Milliseconds from any fixed point; never asked for the date. */
  readonly now: () => number;
  /** Steers every choice made by chance. */
  readonly seed: number;
  /** Stop as soon as the last job finishes by then. */
  readonly target?: number;
  /** Stop after so many moves. */
  readonly maxIterations?: number;
}

/** When and where each operation is done; the outer index is the job, the inner one the operation within it. */
export interface MachinePlan {
  readonly starts: readonly (readonly number[])[];
  readonly machines: readonly (readonly number[])[];
  /** When the last job finishes, counted from time zero. */
  readonly makespan: number;
}

export interface MachineSolution extends MachinePlan {
  /** No plan finishes earlier than this; equal to the makespan when the plan is proven best. */
  readonly bound: number;
  /** Milliseconds until the first plan was there. */
  readonly firstMs: number;
  /** Moves made. */
  readonly iterations: number;
}
