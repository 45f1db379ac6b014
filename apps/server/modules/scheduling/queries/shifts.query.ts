import { DateTime } from 'luxon';
import type { Tx } from '../../../platform/database/tx.js';

interface Pattern {
  weekday: number;
  from: number;
  to: number;
  breakFrom: number | null;
  breakTo: number | null;
}

export interface Shift {
  readonly startsAt: Date;
  readonly endsAt: Date;
}

/**
 * The technician's shifts that touch the period, breaks taken out; undefined when the shop has not said when this
 * technician works. A shift is by the clock on the wall, so on the days of a clock change it is still 8:00 to 17:00.
 */
export async function shiftsAround(
  tx: Tx,
  technicianId: string,
  period: Shift,
  zone: string,
): Promise<Shift[] | undefined> {
  const patterns = await tx.rows<Pattern>(
    `select weekday, from_minute as "from", to_minute as "to", break_from_minute as "breakFrom", break_to_minute as "breakTo"
       from shift_patterns where shop_id = $1 and technician_id = $2`,
    [tx.shopId, technicianId],
  );
  if (patterns.length === 0) return undefined;
  const shifts: Shift[] = [];
  const last = DateTime.fromJSDate(period.endsAt, { zone });
  let day = DateTime.fromJSDate(period.startsAt, { zone }).startOf('day');
  for (; day <= last; day = day.plus({ days: 1 }))
    for (const pattern of patterns.filter(({ weekday }) => weekday === day.weekday))
      shifts.push(...piecesOf(pattern, day));
  return shifts;
}

function piecesOf({ from, to, breakFrom, breakTo }: Pattern, day: DateTime): Shift[] {
  const at = (minute: number): Date =>
    day
      .plus({ days: Math.floor(minute / 1440) })
      .set({ hour: Math.floor((minute % 1440) / 60), minute: minute % 60 })
      .toJSDate();
  if (breakFrom === null || breakTo === null) return [{ startsAt: at(from), endsAt: at(to) }];
  return [
    { startsAt: at(from), endsAt: at(breakFrom) },
    { startsAt: at(breakTo), endsAt: at(to) },
  ];
}
