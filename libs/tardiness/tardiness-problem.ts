/** A job of one machine: whole numbers of one time unit, and what each unit of lateness costs. */
export interface TardyJob {
  /** From zero up. */
  readonly duration: number;
  /** From zero up. */
  readonly weight: number;
  readonly due: number;
}

/** Jobs that one machine does one after the other from time zero, so that the weighted lateness is least. */
export interface TardinessProblem {
  readonly jobs: readonly TardyJob[];
}

/** How long to look and by which clock. Bounded by `maxDescents` alone, the answer depends on the seed only. */
export interface TardinessEffort {
  /** Milliseconds of `now`. */
  readonly timeLimitMs: number;
  /** Milliseconds from any fixed point; never asked for the date. */
  readonly now: () => number;
  readonly seed: number;
  /** Stop after so many descents. */
  readonly maxDescents?: number;
  /** Stop as soon as the lateness is no more than this. */
  readonly target?: number;
  /** Stop when so many walks, each from an order of its own, came to the same least lateness. */
  readonly agreeing?: number;
}

export interface TardinessSolution {
  /** Indices of jobs in the order in which they are done. */
  readonly order: readonly number[];
  /** Σ weight × max(0, completion − due). */
  readonly lateness: number;
  /** No order has less; equal to the lateness when the order is proven best. */
  readonly bound: number;
  /** Milliseconds until the first order was there. */
  readonly firstMs: number;
  readonly descents: number;
}
