import { forward, type Interval } from './interval.js';

/** The same time as few intervals as possible: sorted, overlapping and touching ones joined, empty ones gone. */
export function merge(intervals: readonly Interval[]): Interval[] {
  const sorted = intervals
    .map(forward)
    .filter(({ start, end }) => start < end)
    .sort((a, b) => a.start - b.start);
  const merged: Interval[] = [];
  for (const { start, end } of sorted) {
    const last = merged.at(-1);
    if (last !== undefined && start <= last.end)
      merged[merged.length - 1] = { start: last.start, end: Math.max(last.end, end) };
    else merged.push({ start, end });
  }
  return merged;
}
