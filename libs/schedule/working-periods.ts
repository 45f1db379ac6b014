import { merge, subtract, type Interval } from '#libs/time';
import type { WallDay } from './wall-days.js';

/** A stretch of one day by the clock on the wall, in whole minutes after midnight (0 to 1440), with at most one break. */
export interface DayHours {
  readonly fromMinute: number;
  readonly toMinute: number;
  readonly breakFromMinute?: number | null;
  readonly breakToMinute?: number | null;
}

export interface WeeklyShift extends DayHours {
  /** 1 is Monday, 7 is Sunday (ISO 8601). */
  readonly weekday: number;
}

/** One day (YYYY-MM-DD) on which somebody works other hours than the week says; an empty list is a day off. */
export interface DayOfOtherHours {
  readonly date: string;
  readonly hours: readonly DayHours[];
}

export interface WorkingTimes {
  /** The weekly shifts; null when the shop has not said when this person works: then every moment of an open day. */
  readonly shifts: readonly WeeklyShift[] | null;
  /** Days (YYYY-MM-DD) on which the shop is closed. */
  readonly closedDays?: ReadonlySet<string>;
  /** They stand before the week and before a closed day: a Saturday that is open, a holiday that is worked. */
  readonly otherHours?: readonly DayOfOtherHours[];
  /** When the person is away, in epoch milliseconds, in any order; they may overlap. */
  readonly absences?: readonly Interval[];
}

/**
 * When somebody works between two moments: shifts without their breaks, closed days and absences. Half-open, in order and
 * apart, in epoch milliseconds. `days` are the days of the shop that touch `between` (`wallDays`). A shift is by the clock
 * on the wall: on the days of a clock change it begins and ends as ever, and is as much longer or shorter as the day.
 */
export function workingPeriods(times: WorkingTimes, between: Interval, days: readonly WallDay[]): Interval[] {
  const ordinary = (day: WallDay): readonly DayHours[] => {
    if (times.closedDays?.has(day.date)) return [];
    return times.shifts?.filter(({ weekday }) => weekday === day.weekday) ?? [ALL_DAY];
  };
  const worked = days.flatMap((day) => {
    const other = times.otherHours?.filter(({ date }) => date === day.date) ?? [];
    const hours = other.length > 0 ? other.flatMap((entry) => entry.hours) : ordinary(day);
    return hours.flatMap((stretch) => onDay(stretch, day));
  });
  const away = times.absences ?? [];
  return merge(worked).flatMap(({ start, end }) => {
    const within = { start: Math.max(start, between.start), end: Math.min(end, between.end) };
    return within.start < within.end ? subtract(within, away) : [];
  });
}

const ALL_DAY: DayHours = { fromMinute: 0, toMinute: 1440 };

function onDay(hours: DayHours, day: WallDay): Interval[] {
  const { fromMinute, toMinute, breakFromMinute, breakToMinute } = hours;
  const whole = { start: day.at(fromMinute), end: day.at(toMinute) };
  if (breakFromMinute == null || breakToMinute == null) return [whole];
  return subtract(whole, [{ start: day.at(breakFromMinute), end: day.at(breakToMinute) }]);
}
