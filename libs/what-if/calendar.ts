import type { Period } from '#libs/plan';
import type { DayPeriod } from './year-description.js';

const DAY = 1440;

/** When something goes on, over a whole year: periods in order and apart, with sums so that a question is one bisection. */
export class Calendar {
  private readonly before: readonly number[];

  constructor(readonly periods: readonly Period[]) {
    let sum = 0;
    this.before = periods.map(([from, to]) => (sum += to - from) - (to - from));
  }

  /** Minutes that go on before this time. */
  minutesBefore(time: number): number {
    const at = this.firstEndingAfter(time);
    const period = this.periods[at];
    if (period === undefined) {
      const last = this.periods.at(-1);
      return last === undefined ? 0 : (this.before.at(-1) ?? 0) + last[1] - last[0];
    }
    return (this.before[at] ?? 0) + Math.max(0, time - period[0]);
  }

  minutesIn(from: number, to: number): number {
    return to <= from ? 0 : this.minutesBefore(to) - this.minutesBefore(from);
  }

  /** The first minute from this time on that goes on; infinity when there is none. */
  firstFrom(time: number): number {
    const period = this.periods[this.firstEndingAfter(time)];
    return period === undefined ? Infinity : Math.max(time, period[0]);
  }

  /** When so many minutes have gone on from a start; infinity when there are not so many. */
  endOf(start: number, minutes: number): number {
    const goal = this.minutesBefore(start) + minutes;
    let [low, high] = [0, this.periods.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      const [from, to] = this.periods[middle] ?? [0, 0];
      if ((this.before[middle] ?? 0) + to - from < goal) low = middle + 1;
      else high = middle;
    }
    const period = this.periods[low];
    return period === undefined ? Infinity : period[0] + goal - (this.before[low] ?? 0);
  }

  /** Its periods between two times. */
  between(from: number, to: number): Period[] {
    const found: Period[] = [];
    for (let at = this.firstEndingAfter(from); at < this.periods.length; at++) {
      const [opens, closes] = this.periods[at] ?? [0, 0];
      if (opens >= to) break;
      found.push([Math.max(opens, from), Math.min(closes, to)]);
    }
    return found;
  }

  private firstEndingAfter(time: number): number {
    let [low, high] = [0, this.periods.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.periods[middle]?.[1] ?? 0) <= time) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

/** The same hours every week, but for the days that are closed. Hours that touch or overlap are one period. */
export function weekly(hours: readonly DayPeriod[], days: number, closedDays: readonly number[]): Calendar {
  const closed = new Set(closedDays);
  const periods = Array.from({ length: days }, (_, day) => day)
    .filter((day) => !closed.has(day))
    .flatMap((day) =>
      hours
        .filter(({ weekday }) => weekday === (day % 7) + 1)
        .map(({ from, to }): Period => [day * DAY + from, day * DAY + to]),
    );
  return new Calendar(joined(periods));
}

export function joined(periods: readonly Period[]): Period[] {
  const whole: [number, number][] = [];
  for (const [from, to] of [...periods].sort((a, b) => a[0] - b[0])) {
    const last = whole.at(-1);
    if (last !== undefined && last[1] >= from) last[1] = Math.max(last[1], to);
    else whole.push([from, to]);
  }
  return whole;
}

/** What is left of it when these times are taken out. */
export function without(calendar: Calendar, away: readonly Period[]): Calendar {
  if (away.length === 0) return calendar;
  const gone = joined(away);
  const here = gone.map(([, to], k): Period => [to, gone[k + 1]?.[0] ?? Number.MAX_SAFE_INTEGER]);
  return bothOf(calendar, new Calendar([[Number.MIN_SAFE_INTEGER, gone[0]?.[0] ?? 0], ...here]));
}

export function bothOf(one: Calendar, other: Calendar): Calendar {
  const shared: Period[] = [];
  let [i, j] = [0, 0];
  for (;;) {
    const [a, b] = [one.periods[i], other.periods[j]];
    if (a === undefined || b === undefined) return new Calendar(shared);
    const [from, to] = [Math.max(a[0], b[0]), Math.min(a[1], b[1])];
    if (from < to) shared.push([from, to]);
    if (a[1] <= b[1]) i++;
    else j++;
  }
}
