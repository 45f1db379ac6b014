import { fail, ok, type Fault, type Result } from '#libs/kernel';
import { DateTime, IANAZone } from 'luxon';
import { forward, type Interval } from './interval.js';

export interface DayPiece {
  /** The calendar day in the zone, YYYY-MM-DD. */
  readonly date: string;
  readonly interval: Interval;
}

export type SplitFault = Fault<'zone-unknown' | 'interval-too-long'>;

/** Ten years of days: no shift is longer, and a wrong year must not cost a million pieces. */
const MOST_DAYS = 3660;

/**
 * Cuts an interval at the midnights of an IANA zone. A day is as long as it is there, 23 or 25 hours when the clocks
 * change, and starts at its first midnight; the pieces add up to the whole exactly.
 */
export function splitByDay(given: Interval, zone: string): Result<DayPiece[], SplitFault> {
  forward(given);
  if (!IANAZone.isValidZone(zone)) {
    return fail('zone-unknown', `"${zone}" is no IANA time zone: write it like America/Chicago.`);
  }
  if (given.end - given.start > MOST_DAYS * 86_400_000) {
    return fail('interval-too-long', 'The time spans more than ten years: check its start and end.');
  }
  const pieces: DayPiece[] = [];
  let day = DateTime.fromMillis(given.start, { zone }).startOf('day');
  for (let start = given.start; start < given.end;) {
    const next = day.plus({ days: 1 }).startOf('day');
    const midnight = next.toMillis();
    // Where the clocks once went back over midnight, the time after the first midnight belongs to the new day already.
    if (midnight > start) {
      const end = Math.min(midnight, given.end);
      pieces.push({ date: day.toFormat('yyyy-MM-dd'), interval: { start, end } });
      start = end;
    }
    day = next;
  }
  return ok(pieces);
}
