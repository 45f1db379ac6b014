import { BLOCKED, FINISH, GUIDE, HARD } from './draft.js';
import { PER_MINUTE } from './plan-model.js';

/** What the lesser parts of the objective weigh while it is searched, so that they decide among equals only. */
const BLOCKED_RATE = 0.002 * PER_MINUTE;
export const FINISH_RATE = 0.0002 * PER_MINUTE;

/** One number by which the search goes. */
export const guided = (cost: Float64Array): number =>
  (cost[HARD] ?? 0) +
  (cost[GUIDE] ?? 0) +
  BLOCKED_RATE * (cost[BLOCKED] ?? 0) +
  FINISH_RATE * (cost[FINISH] ?? 0);

/** Whether one cost comes before another: what decides, then bay time blocked, then finish. */
export function isBetter(one: Float64Array, other: Float64Array): boolean {
  for (const part of [HARD, BLOCKED, FINISH]) {
    const difference = (one[part] ?? 0) - (other[part] ?? 0);
    if (difference !== 0) return difference < 0;
  }
  return false;
}
