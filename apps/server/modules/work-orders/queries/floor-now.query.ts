import { DateTime } from 'luxon';
import type { FloorBay, FloorTechnician } from '#libs/schedule';
import type { BayUse } from '#libs/workflow';
import type { Tx } from '../../../platform/database/tx.js';
import { outOfService } from '../../floor/index.js';

/** What a bay is used for now, and by which vehicle. */
export interface Occupant {
  readonly bayId: string;
  readonly vehicleId: string;
  readonly endsAt: string;
  /** Somebody is on the clock on it: it is really there, whatever the plan says. */
  readonly isOnTheClock: boolean;
}

export interface ToolUser {
  readonly toolId: string;
  /** Of a reserved place its own id: it is no work order's. */
  readonly workOrderId: string;
  readonly endsAt: string | null;
}

export interface FloorNow {
  readonly timeZone: string;
  /** Today in the shop's zone. */
  readonly today: string;
  readonly now: Date;
  /**
   * Empty, as far as this list goes; who is where stands in `occupants`. `isClosed`: out of service now, for a time;
   * `inService` is about always.
   */
  readonly bays: readonly (FloorBay & BayUse & { readonly id: string; readonly isClosed: boolean })[];
  readonly occupants: readonly Occupant[];
  /** Everybody who works here; `isTechnician` says whether the floor counts on them. */
  readonly people: readonly FloorPerson[];
  readonly tools: readonly FloorToolUnits[];
  readonly toolUsers: readonly ToolUser[];
}

export interface FloorPerson extends FloorTechnician {
  readonly id: string;
  readonly isTechnician: boolean;
  /** Until when they are away; null when they are here, which somebody who has come in is whatever was recorded. */
  readonly awayUntil: string | null;
}

export interface FloorToolUnits {
  readonly id: string;
  readonly name: string;
  /** Those that are out of service now among them. */
  readonly units: number;
  readonly unitsOut: number;
}

interface Row {
  timeZone: string;
  bays: (FloorBay & { id: string; isClosed: boolean })[];
  occupants: Occupant[];
  people: FloorNow['people'];
  tools: FloorNow['tools'];
  toolUsers: ToolUser[];
}

/**
 * `places`: what is planned for now or really under way. Work that is done or withdrawn holds no bay and no tool, even
 * where its place in the plan has not run out. `kept`: what is reserved for a car that may come.
 */
const FLOOR = `
with running as (
  select e.work_order_id from clock_entries e
   where e.shop_id = $1 and e.ended_at is null and e.superseded_at is null and e.work_order_id is not null),
planned as (
  select a.work_order_id from assignments a
   where a.shop_id = $1 and a.cancelled_at is null and tstzrange(a.starts_at, a.ends_at) @> $2::timestamptz),
places as (
  select w.id, w.repair_order_id, a.bay_id, a.ends_at, exists (select 1 from running r where r.work_order_id = w.id) as on_the_clock
    from (select work_order_id from running union select work_order_id from planned) u
    join work_orders w on w.shop_id = $1 and w.id = u.work_order_id and w.finished_at is null and w.withdrawn_at is null
    left join assignments a on a.shop_id = w.shop_id and a.work_order_id = w.id and a.cancelled_at is null),
kept as (
  select a.id, a.bay_id, a.ends_at, coalesce(r.vehicle_id, r.id) as vehicle_id
    from assignments a
    join reservation_operations o on o.shop_id = $1 and o.id = a.reservation_operation_id
    join reservations r on r.shop_id = $1 and r.id = o.reservation_id
   where a.shop_id = $1 and a.cancelled_at is null and tstzrange(a.starts_at, a.ends_at) @> $2::timestamptz
     and r.released_at is null and (r.expires_at is null or r.expires_at > $2))
select s.time_zone as "timeZone",
  (select coalesce(jsonb_agg(jsonb_build_object('id', b.id, 'name', b.name, 'kind', b.kind,
      'maxHeightMm', b.max_height_mm, 'inService', b.out_of_service_reason is null,
      'isClosed', exists (select 1 from bay_closures c where c.shop_id = b.shop_id and c.bay_id = b.id
        and ${outOfService('c')} @> $2::timestamptz),
      'lift', case when b.lift_kind is not null then jsonb_build_object('kind', b.lift_kind,
        'capacityKg', b.capacity_kg, 'inspectedOn', b.lift_inspected_on) end) order by b.number), '[]')
     from bays b where b.shop_id = $1 and b.is_active) as bays,
  (select coalesce(jsonb_agg(jsonb_build_object('bayId', p.bay_id, 'vehicleId', p.vehicle_id, 'endsAt', p.ends_at,
      'isOnTheClock', p.on_the_clock)), '[]')
     from (select p.bay_id, ro.vehicle_id, p.ends_at, p.on_the_clock
             from places p join repair_orders ro on ro.shop_id = $1 and ro.id = p.repair_order_id
            where p.bay_id is not null
           union all select k.bay_id, k.vehicle_id, k.ends_at, false from kept k) p) as occupants,
  (select coalesce(jsonb_agg(jsonb_build_object('id', p.id, 'name', p.display_name, 'active', p.is_active,
      'isTechnician', 'technician' = any (p.roles),
      'awayUntil', (select max(a.ends_at) from absences a where a.shop_id = p.shop_id and a.technician_id = p.id
        and a.withdrawn_at is null and tstzrange(a.starts_at, a.ends_at) @> $2::timestamptz
        and not exists (select 1 from attendance_entries e where e.shop_id = p.shop_id and e.technician_id = p.id
                           and e.ended_at is null and e.superseded_at is null)),
      'skills', (select coalesce(jsonb_agg(jsonb_build_object('skill', k.skill, 'expiresOn', k.valid_until) order by k.skill), '[]')
                   from technician_skills k where k.shop_id = p.shop_id and k.technician_id = p.id)) order by p.display_name, p.id), '[]')
     from staff p where p.shop_id = $1 and p.is_active) as people,
  (select coalesce(jsonb_agg(jsonb_build_object('id', t.id, 'name', t.name, 'units', t.units,
      'unitsOut', (select count(*) from tool_closures c where c.shop_id = t.shop_id and c.tool_id = t.id
        and c.unit <= t.units and ${outOfService('c')} @> $2::timestamptz))), '[]')
     from special_tools t where t.shop_id = $1) as tools,
  (select coalesce(jsonb_agg(jsonb_build_object('toolId', u.tool_id, 'workOrderId', u.id, 'endsAt', u.ends_at)), '[]')
     from (select wt.tool_id, p.id, p.ends_at
             from places p join work_order_tools wt on wt.shop_id = $1 and wt.work_order_id = p.id
           union all
           select t.tool_id, k.id, k.ends_at
             from kept k join assignment_tools t on t.shop_id = $1 and t.assignment_id = k.id and t.cancelled_at is null) u)
    as "toolUsers"
  from shops s where s.shop_id = $1`;

/** The floor as it is at the transaction's time: asked once, then held against each work order. */
export async function floorNow(tx: Tx): Promise<FloorNow> {
  const row = await tx.one<Row>(FLOOR, [tx.shopId, tx.now]);
  if (!row) throw new Error('the shop of a signed-in person exists');
  return {
    ...row,
    bays: row.bays.map((bay) => ({ ...bay, occupant: 'none', freeAt: null })),
    now: tx.now,
    today: DateTime.fromJSDate(tx.now, { zone: row.timeZone }).toFormat('yyyy-MM-dd'),
  };
}
