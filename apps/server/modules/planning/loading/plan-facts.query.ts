import type { PlanWeights } from '#libs/plan';
import type { FloorLift } from '#libs/schedule';
import type { Tx } from '../../../platform/database/tx.js';
import { RESERVED_PLACE_IS_OVER } from '../../scheduling/index.js';
import type { PlanMode, ToolUnit } from './shop-plan.js';

/** What the plan needs to know beside the facts of each open work order and the calendars of the floor. */
export interface PlanFacts {
  readonly settings: PlanWish;
  /** Live places of open work, and whatever else has had a bay, a person or a tool since what is on the clock began. */
  readonly places: readonly PlaceFacts[];
  /** All work of the repair orders that have open work. */
  readonly work: readonly WorkFacts[];
  /** Work that has one step at one position in common, by their ids. */
  readonly shared: readonly (readonly string[])[];
  /** Work orders that a person took out of the plan. */
  readonly leftOut: readonly string[];
  readonly absences: readonly { readonly technicianId: string; readonly from: string; readonly to: string }[];
  /** Every bay, those that are not in use any more too. */
  readonly bays: readonly BayFacts[];
  /** Everybody, those who have left too. */
  readonly people: readonly { readonly id: string; readonly name: string }[];
}

export interface BayFacts {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly maxHeightMm: number | null;
  readonly lift: FloorLift | null;
}

/** How the shop wants its plan made; see `plan_settings`. */
export interface PlanWish {
  readonly mode: PlanMode;
  readonly weights: PlanWeights;
  readonly frozenMinutes: number;
  readonly horizonDays: number;
}

export interface PlaceFacts {
  readonly id: string;
  readonly version: number;
  readonly workOrderId: string | null;
  readonly reservationOperationId: string | null;
  readonly bayId: string;
  readonly technicianId: string;
  readonly startsAt: string;
  readonly endsAt: string;
  readonly bayUntil: string | null;
  readonly isPinned: boolean;
  readonly planRunId: string | null;
  readonly madeBy: string | null;
  readonly tools: readonly ToolUnit[];
  /** Another car was worked on in the bay after this place had begun and ended: this one does not stand there any more. */
  readonly hasLeft: boolean;
}

export interface WorkFacts {
  readonly id: string;
  readonly number: number;
  readonly repairOrderId: string;
  readonly finishedAt: string | null;
  /** When somebody was first on the clock on it. */
  readonly firstClockAt: string | null;
  /** Who is on the clock on it, since when. */
  readonly openEntry: { readonly technicianId: string; readonly startedAt: string } | null;
  readonly droppedOffAt: string;
  /** What its line may take, where somebody has said so; hundredths of an hour. */
  readonly spread: { readonly low: number; readonly likely: number; readonly high: number } | null;
}

/** Longer than any place and what it keeps its bay for: the index by time need not go through all of the past. */
const LONGEST_PLACE = '180 days';

const ANOTHER_CAR_SINCE = `exists (
  select 1 from assignments b join work_orders x on x.shop_id = $1 and x.id = b.work_order_id
   where b.shop_id = $1 and b.bay_id = a.bay_id and b.cancelled_at is null and b.starts_at >= a.ends_at and b.starts_at <= $2
     and x.repair_order_id <> (select k.repair_order_id from kin k where k.id = a.work_order_id)
     and (x.finished_at is not null or exists (
       select 1 from clock_entries e where e.shop_id = $1 and e.work_order_id = x.id and e.superseded_at is null)))`;

const FACTS = `
with open as materialized (
  select w.id, w.repair_order_id from work_orders w
   where w.shop_id = $1 and w.withdrawn_at is null and w.checked_at is null and w.finished_at is null),
kin as materialized (
  select w.id, w.number, w.repair_order_id, w.line_id, w.finished_at, ro.dropped_off_at
    from work_orders w join repair_orders ro on ro.shop_id = $1 and ro.id = w.repair_order_id
   where w.shop_id = $1 and w.withdrawn_at is null and w.repair_order_id in (select repair_order_id from open)),
since as (
  select least($2::timestamptz, min(e.started_at)) as began from clock_entries e
   where e.shop_id = $1 and e.ended_at is null and e.superseded_at is null),
near as (
  select a.id from assignments a join kin on a.shop_id = $1 and a.work_order_id = kin.id and a.cancelled_at is null
  union
  select a.id from assignments a
   where a.shop_id = $1 and a.cancelled_at is null and a.starts_at > (select began from since) - interval '${LONGEST_PLACE}'
     and coalesce(a.bay_until, a.ends_at) > (select began from since)),
live as materialized (
  select a.* from near join assignments a on a.shop_id = $1 and a.id = near.id and not ${RESERVED_PLACE_IS_OVER}),
clocked as materialized (
  select e.work_order_id, min(e.started_at) as first_at,
         (array_agg(jsonb_build_object('technicianId', e.technician_id, 'startedAt', e.started_at)
            order by e.started_at desc) filter (where e.ended_at is null))[1] as open_entry
    from clock_entries e
   where e.shop_id = $1 and e.superseded_at is null and e.work_order_id in (select id from kin) group by e.work_order_id),
used as materialized (
  select t.assignment_id, jsonb_agg(jsonb_build_object('toolId', t.tool_id, 'unit', t.unit) order by t.tool_id) as tools
    from live a join assignment_tools t on t.shop_id = $1 and t.assignment_id = a.id and t.cancelled_at is null
   group by t.assignment_id),
shared as (
  select array_agg(distinct k.id) as work from kin k join line_steps s on s.shop_id = $1 and s.line_id = k.line_id
   group by k.repair_order_id, s.step_id, s.position having count(distinct k.id) > 1)
select
  (select to_jsonb(s) from plan_settings s where s.shop_id = $1) as settings,
  (select coalesce(jsonb_agg(jsonb_build_object('id', a.id, 'version', a.version, 'workOrderId', a.work_order_id,
      'reservationOperationId', a.reservation_operation_id, 'bayId', a.bay_id, 'technicianId', a.technician_id,
      'startsAt', a.starts_at, 'endsAt', a.ends_at, 'bayUntil', a.bay_until, 'isPinned', a.is_pinned,
      'planRunId', a.plan_run_id, 'madeBy', a.made_by, 'tools', coalesce(u.tools, '[]'),
      'hasLeft', a.work_order_id in (select id from kin) and a.ends_at <= $2 and ${ANOTHER_CAR_SINCE})
      order by a.starts_at, a.id), '[]')
     from live a left join used u on u.assignment_id = a.id) as places,
  (select coalesce(jsonb_agg(jsonb_build_object('id', k.id, 'number', k.number, 'repairOrderId', k.repair_order_id,
      'finishedAt', k.finished_at, 'firstClockAt', c.first_at, 'openEntry', c.open_entry,
      'droppedOffAt', k.dropped_off_at,
      'spread', case when l.low_hundredths is not null then jsonb_build_object('low', l.low_hundredths,
        'likely', coalesce(l.entered_hundredths, (select sum(s.hundredths) from line_steps s
            where s.shop_id = $1 and s.line_id = l.id)), 'high', l.high_hundredths) end)), '[]')
     from kin k join lines l on l.shop_id = $1 and l.id = k.line_id
     left join clocked c on c.work_order_id = k.id) as work,
  (select coalesce(jsonb_agg(to_jsonb(work)), '[]') from shared) as shared,
  (select coalesce(jsonb_agg(o.work_order_id), '[]') from plan_left_out o
    where o.shop_id = $1 and o.lifted_at is null) as "leftOut",
  (select coalesce(jsonb_agg(jsonb_build_object('technicianId', a.technician_id, 'from', a.starts_at, 'to', a.ends_at)), '[]')
     from absences a where a.shop_id = $1 and a.withdrawn_at is null and a.ends_at > $2) as absences,
  (select coalesce(jsonb_agg(jsonb_build_object('id', b.id, 'name', b.name, 'kind', b.kind, 'maxHeightMm', b.max_height_mm,
      'lift', case when b.lift_kind is not null then jsonb_build_object('kind', b.lift_kind,
        'capacityKg', b.capacity_kg, 'inspectedOn', b.lift_inspected_on) end) order by b.number), '[]')
     from bays b where b.shop_id = $1) as bays,
  (select coalesce(jsonb_agg(jsonb_build_object('id', p.id, 'name', p.display_name) order by p.display_name, p.id), '[]')
     from staff p where p.shop_id = $1) as people`;

interface SettingsRow {
  readonly mode: PlanMode;
  readonly lateness: number;
  readonly start_moved: number;
  readonly hour_moved: number;
  readonly technician_changed: number;
  readonly bay_changed: number;
  readonly near_minutes: number;
  readonly frozen_minutes: number;
  readonly horizon_days: number;
}

/** A shop that has said nothing has `usual`. One statement. */
export async function planFacts(tx: Tx, usual: PlanWish): Promise<PlanFacts> {
  const row = await tx.one<Omit<PlanFacts, 'settings'> & { settings: SettingsRow | null }>(FACTS, [
    tx.shopId,
    tx.now,
  ]);
  if (!row) throw new Error('a select of aggregates always answers');
  return { ...row, settings: row.settings === null ? usual : wishOf(row.settings) };
}

const wishOf = (row: SettingsRow): PlanWish => ({
  mode: row.mode,
  weights: {
    lateness: row.lateness,
    startMoved: row.start_moved,
    hourMoved: row.hour_moved,
    technicianChanged: row.technician_changed,
    bayChanged: row.bay_changed,
    nearMinutes: row.near_minutes,
  },
  frozenMinutes: row.frozen_minutes,
  horizonDays: row.horizon_days,
});
