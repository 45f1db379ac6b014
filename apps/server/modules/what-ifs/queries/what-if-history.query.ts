import type { Tx } from '../../../platform/database/tx.js';

/** A repair order with work, as it came: days (YYYY-MM-DD) and minutes are by the clock on the shop's wall. */
export interface PastOrder {
  readonly id: string;
  readonly day: string;
  readonly weekday: number;
  readonly promisedDay: string | null;
  readonly promisedMinute: number | null;
  readonly weightKg: number | null;
  readonly heightMm: number | null;
  readonly work: readonly PastWork[];
  /** Work that has one step at one position in common, by their ids. */
  readonly shared: readonly (readonly string[])[];
}

export interface PastWork {
  readonly id: string;
  readonly bookHundredths: number;
  readonly needsLift: boolean;
  readonly bayKinds: readonly string[];
  readonly skills: readonly string[];
  readonly toolIds: readonly string[];
  readonly earlier: readonly string[];
  readonly isFinished: boolean;
  readonly clockedSeconds: number;
  /** How long after the car the last of its parts came; null when none came later. */
  readonly partsAfterMinutes: number | null;
}

export interface History {
  readonly from: Date;
  readonly to: Date;
  readonly orders: readonly PastOrder[];
}

const DAYS = 90;
/** The latest of them: more would only make the same years slower. */
const MOST_ORDERS = 300;

const HISTORY = `
with orders as materialized (
  select ro.id, ro.dropped_off_at, ro.promised_at, v.weight_kg, v.height_mm
    from repair_orders ro join vehicles v on v.shop_id = $1 and v.id = ro.vehicle_id
   where ro.shop_id = $1 and ro.dropped_off_at >= $2 and ro.dropped_off_at < $3
     and exists (select from work_orders w where w.shop_id = $1 and w.repair_order_id = ro.id and w.withdrawn_at is null)
   order by ro.dropped_off_at desc limit $5),
work as materialized (
  select w.*, o.dropped_off_at from orders o
    join work_orders w on w.shop_id = $1 and w.repair_order_id = o.id and w.withdrawn_at is null),
clocked as (
  select e.work_order_id, sum(extract(epoch from e.ended_at - e.started_at))::integer as seconds
    from clock_entries e where e.shop_id = $1 and e.superseded_at is null and e.ended_at is not null
     and e.work_order_id in (select id from work) group by e.work_order_id),
received as (
  select i.line_id, max(p.received_at) as at from part_receipts p
    join line_items i on i.shop_id = $1 and i.id = p.line_item_id
   where p.shop_id = $1 and i.line_id in (select line_id from work) group by i.line_id),
shared as (
  select w.repair_order_id, array_agg(distinct w.id) as ids from work w
    join line_steps s on s.shop_id = $1 and s.line_id = w.line_id
   group by w.repair_order_id, s.step_id, s.position having count(distinct w.id) > 1)
select o.id, to_char(o.dropped_off_at at time zone $4, 'YYYY-MM-DD') as day,
  extract(isodow from o.dropped_off_at at time zone $4)::integer as weekday,
  to_char(o.promised_at at time zone $4, 'YYYY-MM-DD') as "promisedDay",
  (extract(hour from o.promised_at at time zone $4) * 60 + extract(minute from o.promised_at at time zone $4))::integer
    as "promisedMinute",
  o.weight_kg as "weightKg", o.height_mm as "heightMm",
  (select jsonb_agg(jsonb_build_object('id', w.id, 'bookHundredths', w.book_hundredths, 'needsLift', w.needs_lift,
      'bayKinds', to_jsonb(w.bay_kinds), 'skills', to_jsonb(w.skills), 'isFinished', w.finished_at is not null,
      'toolIds', (select coalesce(jsonb_agg(t.tool_id order by t.tool_id), '[]') from work_order_tools t
          where t.shop_id = $1 and t.work_order_id = w.id),
      'earlier', (select coalesce(jsonb_agg(e.earlier_id order by e.earlier_id), '[]') from work_order_precedences e
          where e.shop_id = $1 and e.work_order_id = w.id),
      'clockedSeconds', coalesce(c.seconds, 0),
      'partsAfterMinutes', case when r.at > w.dropped_off_at
        then (extract(epoch from r.at - w.dropped_off_at) / 60)::integer end) order by w.number)
     from work w left join clocked c on c.work_order_id = w.id left join received r on r.line_id = w.line_id
    where w.repair_order_id = o.id) as work,
  (select coalesce(jsonb_agg(to_jsonb(s.ids)), '[]') from shared s where s.repair_order_id = o.id) as shared
  from orders o order by o.dropped_off_at, o.id`;

/** What came to the shop lately and had work done. */
export async function history(tx: Tx, timeZone: string): Promise<History> {
  const to = tx.now;
  const from = new Date(to.getTime() - DAYS * 86_400_000);
  const orders = await tx.rows<PastOrder>(HISTORY, [tx.shopId, from, to, timeZone, MOST_ORDERS]);
  return { from, to, orders };
}
