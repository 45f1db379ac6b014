import { forward, type Interval } from './interval.js';

/** Whether the two share any time. Back to back is not an overlap, and an empty interval overlaps nothing. */
export function overlaps(a: Interval, b: Interval): boolean {
  return Math.max(forward(a).start, forward(b).start) < Math.min(a.end, b.end);
}
