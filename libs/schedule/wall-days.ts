import { fail, ok, type Fault, type Result } from '#libs/kernel';
import type { Interval } from '#libs/time';
import { DateTime, IANAZone } from 'luxon';

/** One calendar day of an IANA zone, as the clock on the wall shows it. */
export interface WallDay {
  /** YYYY-MM-DD. */
  readonly date: string;
  /** 1 is Monday, 7 is Sunday (ISO 8601). */
  readonly weekday: number;
  /**
   * The first moment, in epoch milliseconds, at which the clock of this day shows `minute` (whole minutes after
   * midnight, 0 to 1440) or something later. Of a time that is shown twice this is the first, as in RFC 5545, 3.3.5; a
   * time that is never shown is the moment at which the clock jumps over it. RFC 5545 would move it on by the jump
   * instead, so that half past two could come after three; here a later minute never comes earlier, and what ends at a
   * time and what begins at it meet on every night of the year.
   */
  at(minute: number): number;
}

export type WallDaysFault = Fault<'zone-unknown' | 'interval-too-long'>;

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;
/** Ten years of days: nobody plans further, and a wrong year must not cost a million days. */
const MOST_DAYS = 3660;

/**
 * The days that have time in `between` (epoch milliseconds), in order. They are made once and then serve every person
 * of the shop, because asking a zone for its offset is what costs.
 */
export function wallDays(between: Interval, zone: string): Result<WallDay[], WallDaysFault> {
  if (!IANAZone.isValidZone(zone)) {
    return fail('zone-unknown', `"${zone}" is no IANA time zone: write it like America/Chicago.`);
  }
  if (between.end - between.start > MOST_DAYS * DAY_MS) {
    return fail('interval-too-long', 'The time spans more than ten years: check its start and end.');
  }
  const offsetAt = offsets(IANAZone.create(zone));
  const first = DateTime.fromMillis(between.start, { zone });
  const days: WallDay[] = [];
  for (let midnight = Date.UTC(first.year, first.month - 1, first.day); ; midnight += DAY_MS) {
    const day = wallDay(midnight, offsetAt);
    if (day.at(0) >= between.end) return ok(days);
    // A day that the zone left out (Samoa, 30 December 2011) begins where it ends.
    if (Math.max(day.at(0), between.start) < day.at(1440)) days.push(day);
  }
}

/** The lead of the wall over UTC in milliseconds, each moment looked up once. */
function offsets(zone: IANAZone): (moment: number) => number {
  const known = new Map<number, number>();
  return (moment) => {
    let offset = known.get(moment);
    if (offset === undefined) {
      offset = zone.offset(moment) * MINUTE_MS;
      known.set(moment, offset);
    }
    return offset;
  };
}

/** `midnight` is the midnight of the day as if the wall showed UTC. */
function wallDay(midnight: number, offsetAt: (moment: number) => number): WallDay {
  const shown = new Date(midnight);
  // No zone leads or trails by more than a day, so whatever happens to the clock on this day happens between these two.
  const before = offsetAt(midnight - DAY_MS);
  const after = offsetAt(midnight + 2 * DAY_MS);
  return {
    date: shown.toISOString().slice(0, 10),
    weekday: shown.getUTCDay() || 7,
    at: (minute) => {
      const wall = midnight + minute * MINUTE_MS;
      return before === after ? wall - before : firstShown(wall, before, after, offsetAt);
    },
  };
}

function firstShown(
  wall: number,
  before: number,
  after: number,
  offsetAt: (moment: number) => number,
): number {
  const old = wall - before;
  if (offsetAt(old) === before) return old;
  const young = wall - after;
  return offsetAt(young) === after ? young : jumpBetween(young, old, after, offsetAt);
}

/** The moment in `(early, late]` from which the zone has the offset `after`. */
function jumpBetween(
  early: number,
  late: number,
  after: number,
  offsetAt: (moment: number) => number,
): number {
  let [not, yes] = [early, late];
  while (yes - not > 1) {
    const middle = Math.floor((not + yes) / 2);
    if (offsetAt(middle) === after) yes = middle;
    else not = middle;
  }
  return yes;
}
