import { wallDays, workingPeriods, type WeeklyShift } from '#libs/schedule';
import type { Interval } from '#libs/time';
import type { Tx } from '../../../platform/database/tx.js';

export interface Shift {
  readonly startsAt: Date;
  readonly endsAt: Date;
}

interface Row {
  shifts: WeeklyShift[];
  closedDays: string[];
  absences: { startsAt: string; endsAt: string }[];
}

const TIMES = `
select
  (select coalesce(jsonb_agg(jsonb_build_object('weekday', w.weekday, 'fromMinute', w.from_minute, 'toMinute', w.to_minute,
      'breakFromMinute', w.break_from_minute, 'breakToMinute', w.break_to_minute)), '[]')
     from shift_patterns w where w.shop_id = $1 and w.technician_id = $2) as shifts,
  (select coalesce(jsonb_agg(d.day), '[]') from closed_days d
    where d.shop_id = $1 and d.day between ($3::timestamptz at time zone $5)::date
      and ($4::timestamptz at time zone $5)::date) as "closedDays",
  (select coalesce(jsonb_agg(jsonb_build_object('startsAt', a.starts_at, 'endsAt', a.ends_at)), '[]')
     from absences a where a.shop_id = $1 and a.technician_id = $2 and a.withdrawn_at is null
      and tstzrange(a.starts_at, a.ends_at) && tstzrange($3, $4)) as absences`;

/**
 * When the technician works in the period: shifts without breaks, closed days and absences. Undefined when the shop has
 * not said when this technician works and nothing is known against it.
 */
export async function shiftsAround(
  tx: Tx,
  technicianId: string,
  period: Shift,
  zone: string,
): Promise<Shift[] | undefined> {
  const { startsAt, endsAt } = period;
  const row = await tx.one<Row>(TIMES, [tx.shopId, technicianId, startsAt, endsAt, zone]);
  if (!row) throw new Error('a select without a table has one row');
  const between = { start: startsAt.getTime(), end: endsAt.getTime() };
  const days = wallDays(between, zone);
  if (!days.ok) throw new Error(days.fault.detail);
  const closedDays = new Set(row.closedDays);
  const isKnown = row.shifts.length > 0;
  if (!isKnown && row.absences.length === 0 && !days.value.some(({ date }) => closedDays.has(date)))
    return undefined;
  const times = { shifts: isKnown ? row.shifts : null, closedDays, absences: row.absences.map(inMillis) };
  return workingPeriods(times, between, days.value).map(({ start, end }) => ({
    startsAt: new Date(start),
    endsAt: new Date(end),
  }));
}

const inMillis = (absence: Row['absences'][number]): Interval => ({
  start: Date.parse(absence.startsAt),
  end: Date.parse(absence.endsAt),
});
