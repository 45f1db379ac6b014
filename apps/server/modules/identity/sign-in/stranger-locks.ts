import { afterWrong, isLocked, type Attempts } from './attempts.js';

const MOST = 10_000;

/**
 * Counts wrong attempts on addresses that nobody has, and locks them like any other: otherwise the lock itself would
 * tell which addresses exist. In memory, by process; the oldest are forgotten when there are too many.
 */
export class StrangerLocks {
  private readonly known = new Map<string, Attempts>();

  lockedUntil(key: string, at: Date): Date | undefined {
    const attempts = this.known.get(key);
    return attempts && isLocked(attempts, at) ? (attempts.lockedUntil ?? undefined) : undefined;
  }

  countWrong(key: string, at: Date): void {
    const next = afterWrong(this.known.get(key) ?? { failed: 0, lockedUntil: null }, at);
    this.known.delete(key);
    this.known.set(key, next);
    const oldest = this.known.keys().next();
    if (this.known.size > MOST && oldest.done !== true) this.known.delete(oldest.value);
  }
}
