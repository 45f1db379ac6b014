import { fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';
import type { PlanProblemFault } from '#libs/plan';
import { meanInterval } from '#libs/statistics';
import type { MeanInterval } from '#libs/statistics';
import { adviceOn } from './advice.js';
import type { Advice } from './advice.js';
import { changeFloorBy } from './changes.js';
import type { ChangeFault, FloorChange } from './changes.js';
import { checkFloor } from './check-floor.js';
import type { FloorFault } from './check-floor.js';
import type { DescriptionFault } from './check-description.js';
import { FIGURES, figuresOf, mostOf } from './figures.js';
import type { Figures } from './figures.js';
import { generateYear } from './generate-year.js';
import { measureReplay } from './measure-replay.js';
import { replay, USUAL_REPLAY } from './replay.js';
import type { ReplayEffort } from './replay.js';
import type { WhatIfFloor } from './what-if-floor.js';
import type { Year, YearDescription } from './year-description.js';

/** What would be different, one thing or several at once. */
export interface Alternative {
  readonly name: string;
  readonly changes: readonly FloorChange[];
}

export interface ComparedAlternative extends Alternative {
  readonly figures: Figures;
  /** Alternative minus base over the same years, with 95 % intervals; base and bounds together are never less than nothing or more than all. */
  readonly differences: Readonly<Record<keyof Figures, MeanInterval>>;
  readonly advice: readonly Advice[];
}

export interface Comparison {
  /** Means over the years. */
  readonly base: Figures;
  readonly alternatives: readonly ComparedAlternative[];
  readonly seeds: readonly number[];
  readonly weeks: number;
  /** Repair orders that came in each year. */
  readonly arrived: readonly number[];
}

export type CompareFault =
  ChangeFault | FloorFault | DescriptionFault | PlanProblemFault | Fault<'seeds-invalid'>;

/**
 * The same years replayed on a floor and on what it would be with each alternative. As nothing of a year depends on the
 * floor, each pair differs by the alternative alone, which makes the interval of the differences narrow.
 */
export function compareWhatIfs(
  floor: WhatIfFloor,
  description: YearDescription,
  alternatives: readonly Alternative[],
  { seeds, effort = USUAL_REPLAY }: { seeds: readonly number[]; effort?: ReplayEffort },
): Result<Comparison, CompareFault> {
  if (seeds.length === 0 || new Set(seeds).size < seeds.length)
    return fail('seeds-invalid', 'Give at least one seed and each only once: a year twice is one year.');
  const checked = checkFloor(floor);
  if (!checked.ok) return checked;
  const floors: WhatIfFloor[] = [];
  for (const { changes } of alternatives) {
    const changed = changeFloorBy(floor, changes);
    if (!changed.ok) return changed;
    floors.push(changed.value);
  }
  const years: Year[] = [];
  for (const seed of seeds) {
    const year = generateYear(description, seed);
    if (!year.ok) return year;
    years.push(year.value);
  }
  const base = overYears(floor, years, effort);
  if (!base.ok) return base;
  const compared: ComparedAlternative[] = [];
  for (const [k, alternative] of alternatives.entries()) {
    const with_ = overYears(floors[k] ?? floor, years, effort);
    if (!with_.ok) return with_;
    const figures = meansOf(with_.value);
    const differences = differencesOf(base.value, with_.value);
    const advice = adviceOn(alternative.changes, meansOf(base.value), differences);
    compared.push({ ...alternative, figures, differences, advice });
  }
  return ok({
    base: meansOf(base.value),
    alternatives: compared,
    seeds,
    weeks: description.weeks,
    arrived: years.map(({ orders }) => orders.length),
  });
}

function overYears(
  floor: WhatIfFloor,
  years: readonly Year[],
  effort: ReplayEffort,
): Result<Figures[], PlanProblemFault> {
  const all: Figures[] = [];
  for (const year of years) {
    const done = replay(floor, year, effort);
    if (!done.ok) return done;
    all.push(figuresOf(measureReplay(done.value), year.weeks));
  }
  return ok(all);
}

const byFigure = <T>(make: (figure: keyof Figures) => T): Record<keyof Figures, T> =>
  Object.fromEntries(FIGURES.map((figure) => [figure, make(figure)])) as Record<keyof Figures, T>;

const meansOf = (all: readonly Figures[]): Figures =>
  byFigure((figure) => meanInterval(all.map((one) => one[figure])).mean);

const differencesOf = (base: readonly Figures[], other: readonly Figures[]) =>
  byFigure((figure) => {
    const differences = other.map((one, k) => one[figure] - (base[k]?.[figure] ?? 0));
    const mean = meansOf(base)[figure];
    return within(meanInterval(differences), -mean, mostOf(figure) - mean);
  });

/**
 * Student's interval knows no limits: of a share of 98 % it may say that it rises by 5. Cut off at what can be, it covers
 * the true difference as often as before, since that lies within the limits. Rejected: an interval of a transformed share,
 * which would no longer stand around the mean difference that is shown beside it.
 */
function within({ mean, bounds }: MeanInterval, least: number, most: number): MeanInterval {
  if (bounds === null) return { mean, bounds };
  const lo = Math.min(mean, Math.max(bounds.lo, least));
  const hi = Math.max(mean, Math.min(bounds.hi, most));
  return { mean, bounds: { lo, hi } };
}
