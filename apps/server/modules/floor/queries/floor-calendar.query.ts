import { wallDays, workingPeriods, type HeldSkill, type WeeklyShift } from '#libs/schedule';
import { merge, type Interval } from '#libs/time';
import type { Tx } from '../../../platform/database/tx.js';
import { outOfService } from '../data/out-of-service.js';

/** Half-open: `from` is in it, `to` is not. */
export interface CalendarPeriod {
  readonly from: Date;
  readonly to: Date;
}

export interface TechnicianCalendar {
  readonly id: string;
  readonly name: string;
  /** Whether the shop has said when this person works; if not, `works` is empty. */
  readonly hasShifts: boolean;
  /** Shifts without breaks, closed days and absences; in order and apart. */
  readonly works: CalendarPeriod[];
  readonly skills: readonly HeldSkill[];
}

export interface BayCalendar {
  readonly id: string;
  readonly name: string;
  /** In order and apart; cut at the period that was asked for, also where nobody knows the end. */
  readonly outOfService: CalendarPeriod[];
}

/** One unit of a special tool. */
export interface ToolCalendar {
  readonly id: string;
  readonly name: string;
  readonly unit: number;
  readonly outOfService: CalendarPeriod[];
}

export interface FloorCalendar {
  readonly timeZone: string;
  /** Those who work here now, by name. */
  readonly technicians: TechnicianCalendar[];
  /** Those in use, by number. */
  readonly bays: BayCalendar[];
  readonly tools: ToolCalendar[];
}

/** Epoch milliseconds; the end is null while nobody knows it. */
interface Stretch {
  start: number;
  end: number | null;
}

interface Row {
  timeZone: string;
  closedDays: string[];
  technicians: {
    id: string;
    name: string;
    shifts: WeeklyShift[];
    absences: Interval[];
    skills: HeldSkill[];
  }[];
  bays: { id: string; name: string; isOut: boolean; closures: Stretch[] }[];
  tools: { id: string; name: string; units: number; closures: (Stretch & { unit: number })[] }[];
}

const epoch = (instant: string): string => `(extract(epoch from ${instant}) * 1000)::float8`;
const stretches = (table: string, own: string, more = ''): string =>
  `(select coalesce(jsonb_agg(jsonb_build_object(${more}'start', ${epoch('c.starts_at')},
       'end', ${epoch('least(c.ends_at, c.ended_at)')})), '[]')
      from ${table} c where c.shop_id = $1 and ${own} and ${outOfService('c')} && tstzrange($2, $3))`;

const CALENDAR = `
select s.time_zone as "timeZone",
  (select coalesce(jsonb_agg(d.day), '[]') from closed_days d
    where d.shop_id = $1 and d.day between ($2::timestamptz at time zone s.time_zone)::date - 1
      and ($3::timestamptz at time zone s.time_zone)::date + 1) as "closedDays",
  (select coalesce(jsonb_agg(jsonb_build_object('id', p.id, 'name', p.display_name,
      'shifts', (select coalesce(jsonb_agg(jsonb_build_object('weekday', w.weekday, 'fromMinute', w.from_minute,
            'toMinute', w.to_minute, 'breakFromMinute', w.break_from_minute, 'breakToMinute', w.break_to_minute)), '[]')
          from shift_patterns w where w.shop_id = $1 and w.technician_id = p.id),
      'absences', (select coalesce(jsonb_agg(jsonb_build_object('start', ${epoch('a.starts_at')}, 'end', ${epoch('a.ends_at')})), '[]')
          from absences a where a.shop_id = $1 and a.technician_id = p.id and a.withdrawn_at is null
           and tstzrange(a.starts_at, a.ends_at) && tstzrange($2, $3)),
      'skills', (select coalesce(jsonb_agg(jsonb_build_object('skill', k.skill, 'expiresOn', k.valid_until) order by k.skill), '[]')
          from technician_skills k where k.shop_id = $1 and k.technician_id = p.id)) order by p.display_name, p.id), '[]')
     from staff p where p.shop_id = $1 and p.is_active and 'technician' = any (p.roles)) as technicians,
  (select coalesce(jsonb_agg(jsonb_build_object('id', b.id, 'name', b.name, 'isOut', b.out_of_service_reason is not null,
      'closures', ${stretches('bay_closures', 'c.bay_id = b.id')}) order by b.number), '[]')
     from bays b where b.shop_id = $1 and b.is_active) as bays,
  (select coalesce(jsonb_agg(jsonb_build_object('id', t.id, 'name', t.name, 'units', t.units,
      'closures', ${stretches('tool_closures', 'c.tool_id = t.id', `'unit', c.unit, `)}) order by t.name), '[]')
     from special_tools t where t.shop_id = $1) as tools
  from shops s where s.shop_id = $1`;

/**
 * When people, bays and tools are there to be planned with. A bay that carries a reason why it is out of service is out
 * for the whole period, because nobody has said until when.
 */
export async function floorCalendar(tx: Tx, { from, to }: CalendarPeriod): Promise<FloorCalendar> {
  const row = await tx.one<Row>(CALENDAR, [tx.shopId, from, to]);
  if (!row) throw new Error('the shop of a transaction exists');
  const between = { start: from.getTime(), end: to.getTime() };
  const days = wallDays(between, row.timeZone);
  if (!days.ok) throw new Error(days.fault.detail);
  const closedDays = new Set(row.closedDays);
  return {
    timeZone: row.timeZone,
    technicians: row.technicians.map(({ id, name, shifts, absences, skills }) => ({
      id,
      name,
      hasShifts: shifts.length > 0,
      works: workingPeriods({ shifts, closedDays, absences }, between, days.value).map(period),
      skills,
    })),
    bays: row.bays.map(({ id, name, isOut, closures }) => ({
      id,
      name,
      outOfService: within(isOut ? [between] : closures, between),
    })),
    tools: row.tools.flatMap(({ id, name, units, closures }) =>
      Array.from({ length: units }, (_, at) => ({
        id,
        name,
        unit: at + 1,
        outOfService: within(
          closures.filter(({ unit }) => unit === at + 1),
          between,
        ),
      })),
    ),
  };
}

const period = ({ start, end }: Interval): CalendarPeriod => ({ from: new Date(start), to: new Date(end) });

function within(some: readonly Stretch[], between: Interval): CalendarPeriod[] {
  const cut = some.map(({ start, end }) => ({
    start: Math.max(start, between.start),
    end: Math.min(end ?? between.end, between.end),
  }));
  return merge(cut).map(period);
}
