import { forward, type Interval } from './interval.js';
import { merge } from './merge.js';

/** What is left of `whole` without the `holes`, in order. Holes may overlap one another and reach beyond it. */
export function subtract(whole: Interval, holes: readonly Interval[]): Interval[] {
  const left: Interval[] = [];
  let start = forward(whole).start;
  for (const hole of merge(holes)) {
    if (hole.end <= start) continue;
    if (hole.start >= whole.end) break;
    if (hole.start > start) left.push({ start, end: hole.start });
    start = hole.end;
  }
  if (start < whole.end) left.push({ start, end: whole.end });
  return left;
}
