import { fail, ok, type Fault, type Result } from '#libs/kernel';
import { DateTime } from 'luxon';

/** Half-open: `start` is in it, `end` is not. Epoch milliseconds. `start === end` is empty, never reversed. */
export interface Interval {
  readonly start: number;
  readonly end: number;
}

export type IntervalFault = Fault<'instant-invalid' | 'interval-reversed'>;

/** The range of an ECMAScript time value. */
const FARTHEST = 8.64e15;

/**
 * Makes an interval from epoch milliseconds or RFC 3339 instants. A reversed one is a Fault: turning it round would hide
 * whichever mistake made it. An instant without an offset is refused, since it is another moment in every zone.
 */
export function interval(start: number | string, end: number | string): Result<Interval, IntervalFault> {
  const from = instant(start);
  const to = instant(end);
  if (from === null || to === null) {
    const bad = from === null ? start : end;
    return fail(
      'instant-invalid',
      `"${bad}" is no instant: give it with its offset, such as 2026-03-08T07:00:00-05:00.`,
    );
  }
  if (to < from)
    return fail('interval-reversed', 'The end lies before the start: enter the later time as the end.');
  return ok({ start: from, end: to });
}

function instant(value: number | string): number | null {
  if (typeof value === 'number')
    return Number.isSafeInteger(value) && Math.abs(value) <= FARTHEST ? value : null;
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,3})?)?(Z|[+-]\d\d:\d\d)$/.test(value)) return null;
  const parsed = DateTime.fromISO(value, { setZone: true });
  return parsed.isValid ? parsed.toMillis() : null;
}

/** The guard of every function here: a reversed interval past `interval()` is a bug, so it throws. */
export function forward(given: Interval): Interval {
  if (!(given.start <= given.end)) {
    throw new RangeError(`an interval must not end before it starts: ${given.start} to ${given.end}`);
  }
  return given;
}
