import { bothOf, Calendar, weekly, without } from './calendar.js';
import type { WhatIfFloor } from './what-if-floor.js';
import type { Year } from './year-description.js';

const DAY = 1440;
/** Work that is planned near the end of a year may lie behind it. */
const DAYS_AFTER = 140;

/** A floor's calendars over a year. */
export class ShopYear {
  /** Nothing is replayed from here on. */
  readonly end: number;
  readonly opening: Calendar;
  private readonly calendars = new Map<string, Calendar>();

  constructor(
    readonly floor: WhatIfFloor,
    year: Year,
  ) {
    this.end = year.weeks * 7 * DAY;
    const days = year.weeks * 7 + DAYS_AFTER;
    this.opening = weekly(floor.opening, days, year.closedDays);
    for (const { id, hours, away = [] } of floor.technicians) {
      const works = bothOf(weekly(hours, days, year.closedDays), this.opening);
      this.calendars.set(id, without(works, away));
    }
  }

  /** When these all work. */
  together(technicians: readonly string[]): Calendar {
    const key = technicians.join('\n');
    const known = this.calendars.get(key);
    if (known !== undefined) return known;
    const [first = '', ...others] = technicians;
    const made = others.reduce(
      (both, id) => bothOf(both, this.together([id])),
      this.calendars.get(first) ?? new Calendar([]),
    );
    this.calendars.set(key, made);
    return made;
  }
}
