const LIMIT = 5;
export const LOCK_MINUTES = 15;

/** Wrong attempts since the last right one, and until when no further one is looked at. */
export interface Attempts {
  readonly failed: number;
  readonly lockedUntil: Date | null;
}

export const isLocked = (attempts: Pick<Attempts, 'lockedUntil'>, at: Date): boolean =>
  attempts.lockedUntil !== null && attempts.lockedUntil > at;

/** One more wrong attempt. The fifth locks for a quarter of an hour; after that the count starts again. */
export function afterWrong(before: Attempts, at: Date): Attempts {
  if (isLocked(before, at)) return before;
  const failed = (before.lockedUntil === null ? before.failed : 0) + 1;
  const lockedUntil = failed < LIMIT ? null : new Date(at.getTime() + LOCK_MINUTES * 60_000);
  return { failed, lockedUntil };
}
