/** One way to do an activity. */
export interface ActivityMode {
  /** A whole number of time units from zero up. */
  readonly duration: number;
  /** Units of each renewable resource that are held all the while. */
  readonly holds: readonly number[];
  /** Units of each nonrenewable resource that are used up. */
  readonly consumes: readonly number[];
}

export interface ProjectActivity {
  /** At least one. */
  readonly modes: readonly ActivityMode[];
  /** Indices of activities that start only once this one is done. */
  readonly successors: readonly number[];
}

/** A project of activities under limited resources, to be done early: single-mode where every activity has one mode. */
export interface ProjectProblem {
  readonly activities: readonly ProjectActivity[];
  /** Units of each renewable resource that there are at any time. */
  readonly renewable: readonly number[];
  /** Units of each nonrenewable resource that there are in all. */
  readonly nonrenewable: readonly number[];
}

/** How long to look and by which clock. Bounded by `maxSchedules` alone, the answer depends on the seed only. */
export interface ProjectEffort {
  /** Milliseconds of `now`. */
  readonly timeLimitMs: number;
  /** Milliseconds from any fixed point; never asked for the date. */
  readonly now: () => number;
  readonly seed: number;
  /** Stop after so many schedules were made. */
  readonly maxSchedules?: number;
  /** Stop as soon as the project is done by then. */
  readonly target?: number;
}

export interface ProjectPlan {
  readonly starts: readonly number[];
  /** The index of the mode of each activity. */
  readonly modes: readonly number[];
  /** When the last activity is done, counted from time zero. */
  readonly makespan: number;
}

export interface ProjectSolution extends ProjectPlan {
  /** False only where no choice of modes was found that the nonrenewable resources allow. */
  readonly feasible: boolean;
  /** No plan is done earlier; equal to the makespan when the plan is proven best. */
  readonly bound: number;
  /** Milliseconds until the first plan was there. */
  readonly firstMs: number;
  readonly schedules: number;
}
