/** All in milliseconds. */
export interface QueueTiming {
  /** Between looks for jobs of processes that ended: so long such a job stands still. */
  readonly lookMs: number;
  /** A process that has been frozen, or cut off, for so long counts as ended. Longer than `lookMs`, which is its sign of life. */
  readonly silentMs: number;
  /** Between looks for jobs whose time has come, or whose wait after a failure is over; for others the runner listens. */
  readonly pollMs: number;
  /** When the process stops, a job may go on for so long; then its signal is aborted. */
  readonly finishMs: number;
  /** From the stop on; then a job that has not ended is given back as it is. */
  readonly giveBackMs: number;
  /** Between looks for jobs that were given up. */
  readonly givenUpLookMs: number;
  /** So long a job that was given up is kept for somebody to look into. */
  readonly givenUpKeepMs: number;
}

export const QUEUE_TIMING: QueueTiming = {
  lookMs: 3_000,
  silentMs: 20_000,
  pollMs: 2_000,
  finishMs: 2_500,
  giveBackMs: 4_500,
  givenUpLookMs: 60_000,
  givenUpKeepMs: 30 * 86_400_000,
};
