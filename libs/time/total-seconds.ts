import { seconds, type Seconds } from '#libs/kernel';
import { forward, type Interval } from './interval.js';

/**
 * The length of all intervals in whole seconds. Milliseconds are added up first and rounded once, half up. Time that two
 * of them share counts twice: `merge` them first where that is not meant.
 */
export function totalSeconds(intervals: readonly Interval[]): Seconds {
  const milliseconds = intervals.reduce((sum, given) => sum + (forward(given).end - given.start), 0);
  return seconds(Math.floor((milliseconds + 500) / 1000));
}
