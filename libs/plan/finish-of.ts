import type { PlanModel } from './plan-model.js';
import { bucketsOf } from './rota.js';

const PER_CALENDAR = bucketsOf();

/** The first working period of a calendar that ends after `time`, as an index into the rota. */
export function periodAt({ rota }: Pick<PlanModel, 'rota'>, calendar: number, time: number): number {
  const bucket = Math.min(time >> rota.shift, PER_CALENDAR - 1);
  let period = rota.bucket[calendar * PER_CALENDAR + bucket] ?? 0;
  while ((rota.to[period] ?? 0) <= time) period++;
  return period;
}

/** When a crew that starts at `start` (or when it works next) is over, resting where it does not work. */
export function finishOf(
  model: Pick<PlanModel, 'rota' | 'crewCalendar' | 'crewMinutes'>,
  crew: number,
  start: number,
): number {
  return advance(model, model.crewCalendar[crew] ?? 0, start, model.crewMinutes[crew] ?? 0);
}

/** When so many working minutes of a calendar are over, from a time on. */
export function advance(
  model: Pick<PlanModel, 'rota'>,
  calendar: number,
  start: number,
  minutes: number,
): number {
  const { from, to } = model.rota;
  let period = periodAt(model, calendar, start);
  let left = minutes;
  let at = Math.max(start, from[period] ?? 0);
  for (;;) {
    const room = (to[period] ?? 0) - at;
    if (left <= room) return at + left;
    left -= room;
    at = from[++period] ?? 0;
  }
}
