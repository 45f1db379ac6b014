import type { Period } from '#libs/plan';
import type { CalendarPeriod } from '../../floor/index.js';
import type { PlanHorizon } from './shop-plan.js';

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

/**
 * Minutes of a problem from midnight UTC before the earliest thing that matters, so that nothing in it is negative. All
 * instants are rounded up alike: what ends before something else begins still does.
 */
export function horizonFrom(earliest: Date, now: Date, until: Date, timeZone: string): PlanHorizon {
  // A car that stands apart already is entered before everything else, so there is a little room below the earliest.
  const origin = new Date(Math.floor((earliest.getTime() - DAY_MS / 24) / DAY_MS) * DAY_MS);
  const minuteOf = (instant: Date): number => Math.ceil((instant.getTime() - origin.getTime()) / MINUTE_MS);
  const instantOf = (minute: number): Date => new Date(origin.getTime() + minute * MINUTE_MS);
  return { origin, now: minuteOf(now), until: minuteOf(until), timeZone, minuteOf, instantOf };
}

/** Periods as minutes, in order and apart, without what lies before the origin or is over within a minute. */
export function minutesOfPeriods({ minuteOf }: PlanHorizon, periods: readonly CalendarPeriod[]): Period[] {
  return apart(periods.map(({ from, to }) => [Math.max(0, minuteOf(from)), minuteOf(to)] as const));
}

/** In order, none reversed, those that touch or overlap joined. */
export function apart(periods: readonly Period[]): Period[] {
  const joined: [number, number][] = [];
  for (const [from, to] of [...periods].sort((a, b) => a[0] - b[0])) {
    const last = joined.at(-1);
    if (from >= to) continue;
    if (last !== undefined && last[1] >= from) last[1] = Math.max(last[1], to);
    else joined.push([from, to]);
  }
  return joined;
}

/** The part of the periods that lies outside `without`. */
export function less(periods: readonly Period[], without: readonly Period[]): Period[] {
  return without.reduce<Period[]>(
    (left, [from, to]) =>
      left.flatMap(([opens, closes]) =>
        apart([
          [opens, Math.min(closes, from)],
          [Math.max(opens, to), closes],
        ]),
      ),
    apart(periods),
  );
}

/** Minutes of [start, end) that lie in the periods. */
export function workedWithin(periods: readonly Period[], start: number, end: number): number {
  return periods.reduce((sum, [from, to]) => sum + Math.max(0, Math.min(to, end) - Math.max(from, start)), 0);
}

/**
 * When work that goes on at `from` and takes so many more minutes is over: it rests outside the periods. Somebody who is
 * at it outside of them works through, because they do so now.
 */
export function endOfWork(periods: readonly Period[], from: number, minutes: number): number {
  const isAtWork = periods.some(([opens, closes]) => opens <= from && from < closes);
  if (!isAtWork) return from + minutes;
  let left = minutes;
  for (const [opens, closes] of periods) {
    if (closes <= from) continue;
    const at = Math.max(opens, from);
    if (left <= closes - at) return at + left;
    left -= closes - at;
  }
  return Math.max(from, periods.at(-1)?.[1] ?? from) + left;
}
