import type { Kept } from './kept.js';
import { NearbySearch } from './nearby-search.js';
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
/**
 * First plans that are made, as long as they take no more than a part of the effort, and how many of them are searched
 * for a while, until another part is over: what one began badly the search seldom undoes. Found by trying.
 */
const STARTS = { most: 12, until: 0.2 };
const LEGS = { most: 3, until: 0.5 };

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

/** A plan on the way, and what it costs. */
interface Leg {
  kept: Kept;
  cost: number;
}

/** Around the previous plan: what had to go is put where it costs least, then all is searched, changes being charged. */
export function searchNearby(
  model: PlanModel,
  free: readonly number[],
  random: () => number,
  meter: SearchMeter,
): NearbyFound {
  const search = new NearbySearch(model, free, random);
  const legs = startsOf(search, meter).slice(0, LEGS.most);
  const from = meter.part;
  legs.forEach((leg, k) => {
    search.load(leg.kept);
    walk(search, meter, from + ((LEGS.until - from) * (k + 1)) / legs.length);
    [leg.kept, leg.cost] = [search.held(), search.bestTotal];
  });
  search.load(cheapest(legs));
  walk(search, meter, 1);
  for (let more = MORE_WHEN_LOST; search.hasLost && more > 0; more--) search.walk(AT_ONCE, PER_MINUTE * COLD);
  meter.looked = search.looked;
  const { hard } = search.bestCost;
  const hopeless = model.operations - free.length - model.started.length;
  return { kept: search.best, hard, isComplete: hard - UNPLACED * hopeless < UNPLACED };
}

/** Plans in which what lost its place is put in one way or another, the cheapest first. */
function startsOf(search: NearbySearch, meter: SearchMeter): Leg[] {
  const missing = search.keep();
  const keptOnly = search.now();
  const starts: Leg[] = [];
  for (let variant = 0; variant === 0 || isTimeFor(variant, missing, meter); variant++) {
    if (variant > 0) search.load(keptOnly);
    search.complete(missing, variant);
    starts.push({ kept: search.now(), cost: search.bestTotal });
    if (variant === 0) meter.first();
  }
  return starts.sort((a, b) => a.cost - b.cost);
}

/** Where nothing is missing all starts are the same. */
const isTimeFor = (variant: number, missing: readonly number[], { part }: SearchMeter): boolean =>
  missing.length > 0 && variant < STARTS.most && part < STARTS.until;

/** Cools down until a part of the effort is gone. */
function walk(search: NearbySearch, meter: SearchMeter, until: number): void {
  const from = meter.part;
  for (let { part } = meter; part < until; { part } = meter) {
    const degrees = HOT * (COLD / HOT) ** ((part - from) / (until - from));
    if (search.walk(AT_ONCE, PER_MINUTE * degrees)) meter.bestMs = meter.ms;
    meter.looked = search.looked;
  }
}

/** The cheapest leg; there is always one. */
const cheapest = (legs: readonly Leg[]): Kept =>
  legs.reduce((best, leg) => (leg.cost < best.cost ? leg : best)).kept;
