import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { SpecialToolRow } from '../data/special-tool.entity.js';
import { outOfService } from '../data/out-of-service.js';
import type { CalendarQuery } from '../dto/calendar.request.js';
import type {
  AbsenceResponse,
  BayClosureResponse,
  CalendarResponse,
  ClosedDayResponse,
  ToolClosureResponse,
} from '../dto/calendar.response.js';
import { bayById } from './bays.query.js';
import { technicianById } from './technicians.query.js';

/** Days by the shop's clock, both included. */
export interface Days {
  readonly from: string;
  readonly to: string;
}

const LONGEST_DAYS = 731;

export function checkDays({ from, to }: CalendarQuery): Result<Days> {
  const days = (Date.parse(to) - Date.parse(from)) / 86_400_000;
  if (days >= 0 && days < LONGEST_DAYS) return ok({ from, to });
  const detail = days < 0 ? 'The last day must not lie before the first.' : `At most ${LONGEST_DAYS} days.`;
  return fail('request-invalid', detail, { fields: [{ pointer: '/to', detail }] });
}

/** What is asked for: some days, and of them perhaps one record or those of one subject. */
export interface Wanted {
  readonly days?: Days;
  readonly id?: string;
  readonly of?: string;
}

const DAYS_OF_SHOP = `tstzrange(($2::date)::timestamp at time zone s.time_zone,
  ($3::date + 1)::timestamp at time zone s.time_zone)`;

/** RFC 3339 in UTC with milliseconds, as everywhere in answers. */
const instant = (value: string): string =>
  `to_char(${value} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/** Open work with a place that meets `range`, where `same` holds between it and the row `c`. */
const planned = (same: string, range: string): string =>
  `(select coalesce(jsonb_agg(jsonb_build_object('workOrderId', w.id, 'workOrderNumber', w.number, 'title', w.title,
        'startsAt', ${instant('a.starts_at')}, 'endsAt', ${instant('a.ends_at')}) order by a.starts_at, w.number), '[]')
      from assignments a join work_orders w on w.shop_id = a.shop_id and w.id = a.work_order_id
     where a.shop_id = c.shop_id and a.cancelled_at is null and w.finished_at is null and w.withdrawn_at is null
       and ${same} and tstzrange(a.starts_at, a.ends_at) && ${range}) as planned`;

const RECORDED = `${instant('c.starts_at')} as "startsAt", ${instant('c.ends_at')} as "endsAt", c.reason,
  r.display_name as "recordedBy", ${instant('c.recorded_at')} as "recordedAt", c.version`;
const RECORDER = 'join staff r on r.shop_id = c.shop_id and r.id = c.recorded_by';
const AWAY = 'tstzrange(c.starts_at, c.ends_at)';
const OUT = outOfService('c');

/** `lives` goes for lists only: a record that was just called off can still be read by its id. */
function asked(tx: Tx, wanted: Wanted, subject: string, range: string, lives: string): [string, unknown[]] {
  const { days, id, of } = wanted;
  const values = [tx.shopId, days?.from ?? null, days?.to ?? null, id ?? null, of ?? null];
  const where = `where c.shop_id = $1 and ($4::uuid is null or c.id = $4) and ($5::uuid is null or ${subject} = $5)
    and ($4::uuid is not null or ${lives}) and ($2::date is null or ${range} && ${DAYS_OF_SHOP})
    order by c.starts_at, c.id`;
  return [where, values];
}

export async function absencesWanted(tx: Tx, wanted: Wanted): Promise<AbsenceResponse[]> {
  const [where, values] = asked(tx, wanted, 'c.technician_id', AWAY, 'c.withdrawn_at is null');
  return tx.rows(
    `select c.id, c.technician_id as "technicianId", p.display_name as "technicianName", ${RECORDED},
            ${planned('a.technician_id = c.technician_id', AWAY)}
       from absences c join shops s on s.shop_id = c.shop_id ${RECORDER}
       join staff p on p.shop_id = c.shop_id and p.id = c.technician_id ${where}`,
    values,
  );
}

export async function bayClosuresWanted(tx: Tx, wanted: Wanted): Promise<BayClosureResponse[]> {
  const [where, values] = asked(tx, wanted, 'c.bay_id', OUT, `not isempty(${OUT})`);
  return tx.rows(
    `select c.id, c.bay_id as "bayId", b.name as "bayName", ${RECORDED}, ${instant('c.ended_at')} as "endedAt",
            ${planned('a.bay_id = c.bay_id', OUT)}
       from bay_closures c join shops s on s.shop_id = c.shop_id ${RECORDER}
       join bays b on b.shop_id = c.shop_id and b.id = c.bay_id ${where}`,
    values,
  );
}

export async function toolClosuresWanted(tx: Tx, wanted: Wanted): Promise<ToolClosureResponse[]> {
  const [where, values] = asked(tx, wanted, 'c.tool_id', OUT, `not isempty(${OUT})`);
  const same = `exists (select 1 from assignment_tools u where u.shop_id = a.shop_id and u.assignment_id = a.id
    and u.tool_id = c.tool_id and u.unit = c.unit and u.cancelled_at is null)`;
  return tx.rows(
    `select c.id, c.tool_id as "toolId", t.name as "toolName", c.unit, ${RECORDED},
            ${instant('c.ended_at')} as "endedAt", ${planned(same, OUT)}
       from tool_closures c join shops s on s.shop_id = c.shop_id ${RECORDER}
       join special_tools t on t.shop_id = c.shop_id and t.id = c.tool_id ${where}`,
    values,
  );
}

export async function closedDaysIn(tx: Tx, { from, to }: Days): Promise<ClosedDayResponse[]> {
  return tx.rows(
    `select to_char(day, 'YYYY-MM-DD') as day, name from closed_days
      where shop_id = $1 and day between $2 and $3 order by day`,
    [tx.shopId, from, to],
  );
}

/** Everything that keeps people, bays, tools or the whole shop away on these days. */
export async function calendarOf(tx: Tx, query: CalendarQuery): Promise<Result<CalendarResponse>> {
  const days = checkDays(query);
  if (!days.ok) return days;
  const shop = await tx.one<{ timeZone: string }>(
    'select time_zone as "timeZone" from shops where shop_id = $1',
    [tx.shopId],
  );
  const wanted = { days: days.value };
  return ok({
    timeZone: shop?.timeZone ?? 'UTC',
    closedDays: await closedDaysIn(tx, days.value),
    absences: await absencesWanted(tx, wanted),
    bayClosures: await bayClosuresWanted(tx, wanted),
    toolClosures: await toolClosuresWanted(tx, wanted),
  });
}

export async function closedDays(
  tx: Tx,
  query: CalendarQuery,
): Promise<Result<{ items: ClosedDayResponse[] }>> {
  const days = checkDays(query);
  return days.ok ? ok({ items: await closedDaysIn(tx, days.value) }) : days;
}

export async function absencesOf(
  tx: Tx,
  technicianId: string,
  query: CalendarQuery,
): Promise<Result<{ items: AbsenceResponse[] }>> {
  const known = await technicianById(tx, technicianId);
  if (!known.ok) return known;
  return listed(query, (days) => absencesWanted(tx, { days, of: technicianId }));
}

export async function bayClosuresOf(
  tx: Tx,
  bayId: string,
  query: CalendarQuery,
): Promise<Result<{ items: BayClosureResponse[] }>> {
  const known = await bayById(tx, bayId);
  if (!known.ok) return known;
  return listed(query, (days) => bayClosuresWanted(tx, { days, of: bayId }));
}

export async function toolClosuresOf(
  tx: Tx,
  toolId: string,
  query: CalendarQuery,
): Promise<Result<{ items: ToolClosureResponse[] }>> {
  const known = await tx.em.existsBy(SpecialToolRow, { shopId: tx.shopId, id: toolId });
  if (!known) return fail('not-found', 'There is no such special tool in this shop.');
  return listed(query, (days) => toolClosuresWanted(tx, { days, of: toolId }));
}

async function listed<T>(
  query: CalendarQuery,
  load: (days: Days) => Promise<T[]>,
): Promise<Result<{ items: T[] }>> {
  const days = checkDays(query);
  return days.ok ? ok({ items: await load(days.value) }) : days;
}
