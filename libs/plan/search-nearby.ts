import { NearbySearch } from './nearby-search.js';
import type { Kept } from './kept.js';
import { UNPLACED } from './placer.js';
import { PER_MINUTE } from './plan-model.js';
import type { PlanModel } from './plan-model.js';

/** Temperatures in minutes of lateness at the beginning and at the end. */
const HOT = 20;
const COLD = 1;
/** Rounds that are added while something has no place. */
const MORE_WHEN_LOST = 8;
/** Attempts between two looks at the time. */
const AT_ONCE = 8;

/** Watches the time and counts what was looked at. */
export interface SearchMeter {
  looked: number;
  bestMs: number;
  readonly ms: number;
  /** The part of the effort that is gone. */
  readonly part: number;
  first(): void;
}

export interface NearbyFound {
  readonly kept: Kept;
  /** What decides, in `PER_MINUTE`ths of a minute. */
  readonly hard: number;
  readonly isComplete: boolean;
}

/** Around the previous plan: what had to go is put where it costs least, then all is searched, changes being charged. */
export function searchNearby(
  model: PlanModel,
  free: readonly number[],
  random: () => number,
  meter: SearchMeter,
): NearbyFound {
  const search = new NearbySearch(model, free, random);
  search.complete(search.keep());
  meter.first();
  let more = MORE_WHEN_LOST;
  for (let { part } = meter; part < 1 || (search.hasLost && more-- > 0); { part } = meter) {
    if (search.walk(AT_ONCE, PER_MINUTE * HOT * (COLD / HOT) ** Math.min(1, part))) meter.bestMs = meter.ms;
    meter.looked = search.looked;
  }
  const { hard } = search.bestCost;
  const hopeless = model.operations - free.length - model.started.length;
  return { kept: search.best, hard, isComplete: hard - UNPLACED * hopeless < UNPLACED };
}
