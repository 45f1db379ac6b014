import type { Tx } from '../../../platform/database/tx.js';
import { entrySeconds } from './entry-seconds.js';
import { expectedOf } from './expected.js';

/** Everything stored that says where a work order stands and what it waits for. */
export interface WorkOrderFactsRow {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly repairOrderId: string;
  readonly repairOrderNumber: number;
  readonly promisedAt: Date | null;
  readonly vehicleId: string;
  readonly vehicleLabel: string;
  readonly plate: string | null;
  readonly weightKg: number | null;
  readonly heightMm: number | null;
  readonly drivetrain: 'combustion' | 'hybrid' | 'electric';
  readonly lineId: string;
  readonly decisionId: string;
  readonly bookHundredths: number;
  readonly needsLift: boolean;
  readonly bayKinds: string[];
  readonly skills: string[];
  readonly cautions: string[];
  readonly releasedAt: Date;
  readonly withdrawnAt: Date | null;
  readonly finishedAt: Date | null;
  readonly finishedBy: string | null;
  readonly checkedAt: Date | null;
  readonly checkedBy: string | null;
  readonly checkNote: string | null;
  readonly version: number;
  /** The latest answer to the line; null when nobody has answered. */
  readonly latestAnswer: string | null;
  readonly claim: ClaimFacts | null;
  readonly assignment: AssignmentFacts | null;
  readonly clockedSeconds: number;
  readonly isOnTheClock: boolean;
  readonly isClockedSinceClaim: boolean;
  readonly items: readonly ItemFacts[];
  readonly tools: readonly { readonly id: string; readonly name: string }[];
  readonly earlier: readonly EarlierFacts[];
  /** The vehicle has a finding that says it must not be driven, and no checked work answers it. */
  readonly isUnsafe: boolean;
}

export interface ClaimFacts {
  readonly id: string;
  readonly technicianId: string;
  readonly displayName: string;
  readonly claimedAt: string;
}

export interface AssignmentFacts {
  readonly id: string;
  readonly version: number;
  readonly bayId: string;
  readonly technicianId: string;
  readonly technicianName: string;
  readonly startsAt: string;
  readonly endsAt: string;
}

/** A part or sublet of the line, with what has come in. */
export interface ItemFacts {
  readonly id: string;
  readonly kind: 'part' | 'sublet';
  readonly name: string;
  readonly neededHundredths: number;
  readonly receivedHundredths: number;
  /** As was told last, otherwise as the sent line says. */
  readonly expectedAt: string | null;
}

export interface EarlierFacts {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly finished: boolean;
}

/** The same order of questions as `workOrderState` in libs/workflow; a test holds the two together. */
export const STATE_SQL = `case when w.withdrawn_at is not null then 'withdrawn' when w.checked_at is not null then 'checked'
  when w.finished_at is not null then 'finished'
  when exists (select 1 from clock_entries e where e.shop_id = w.shop_id and e.work_order_id = w.id
                  and e.ended_at is null and e.superseded_at is null) then 'on-the-clock'
  else coalesce((select case when exists (select 1 from clock_entries e where e.shop_id = w.shop_id
           and e.work_order_id = w.id and e.superseded_at is null and e.technician_id = c.technician_id
           and coalesce(e.ended_at, 'infinity') > c.claimed_at) then 'paused' else 'claimed' end
     from claims c where c.shop_id = w.shop_id and c.work_order_id = w.id and c.released_at is null), 'released') end`;

/**
 * What hangs on the chosen work orders, each kind gathered once for all of them. Clock entries are not among them: the
 * database would read years of them through, where the index finds the few of each work order.
 */
const GATHERED = `
received as (
  select r.line_item_id, sum(r.quantity_hundredths)::int as hundredths
    from w join line_items i on i.shop_id = $1 and i.line_id = w.line_id
    join part_receipts r on r.shop_id = $1 and r.line_item_id = i.id group by r.line_item_id),
needed as (
  select i.line_id, jsonb_agg(jsonb_build_object('id', i.id, 'kind', i.kind, 'name', i.name,
           'neededHundredths', i.quantity_hundredths, 'receivedHundredths', coalesce(r.hundredths, 0), 'expectedAt', expected.at) order by i.sequence, i.id) as items
    from w join line_items i on i.shop_id = $1 and i.line_id = w.line_id and i.kind in ('part', 'sublet')
    left join received r on r.line_item_id = i.id
    ${expectedOf('i')} group by i.line_id),
tooled as (
  select t.work_order_id, jsonb_agg(jsonb_build_object('id', k.id, 'name', k.name) order by k.name) as tools
    from w join work_order_tools t on t.shop_id = $1 and t.work_order_id = w.id
    join special_tools k on k.shop_id = $1 and k.id = t.tool_id group by t.work_order_id),
preceded as (
  select p.work_order_id, jsonb_agg(jsonb_build_object('id', o.id, 'number', o.number, 'title', o.title,
           'finished', o.finished_at is not null or o.withdrawn_at is not null) order by o.number) as earlier
    from w join work_order_precedences p on p.shop_id = $1 and p.work_order_id = w.id
    join work_orders o on o.shop_id = $1 and o.id = p.earlier_id group by p.work_order_id),
unsafe as (
  select distinct f.repair_order_id from findings f
   where f.shop_id = $1 and f.repair_order_id in (select repair_order_id from w)
     and f.withdrawn_at is null and f.verdict = 'repair' and f.may_drive = 'no'
     and not exists (select 1 from line_findings lf
           join work_orders done on done.shop_id = $1 and done.line_id = lf.line_id
             and done.withdrawn_at is null and done.checked_at is not null
          where lf.shop_id = $1 and lf.finding_id = f.id))`;

const CORE = `
select w.id, w.number, w.title, w.repair_order_id as "repairOrderId", ro.number as "repairOrderNumber",
       ro.promised_at as "promisedAt", ro.vehicle_id as "vehicleId",
       concat_ws(' ', v.make, v.model, v.model_year) as "vehicleLabel", v.plate,
       v.weight_kg as "weightKg", v.height_mm as "heightMm", v.drivetrain, w.line_id as "lineId",
       w.decision_id as "decisionId", w.book_hundredths as "bookHundredths", w.needs_lift as "needsLift",
       w.bay_kinds as "bayKinds", w.skills, w.cautions, w.released_at as "releasedAt",
       w.withdrawn_at as "withdrawnAt", w.finished_at as "finishedAt", w.finished_by as "finishedBy",
       w.checked_at as "checkedAt", w.checked_by as "checkedBy", w.check_note as "checkNote", w.version,
       (select d.answer from decisions d where d.shop_id = $1 and d.line_id = w.line_id
         order by d.sequence desc limit 1) as "latestAnswer",
       (select jsonb_build_object('id', c.id, 'technicianId', c.technician_id, 'displayName', p.display_name,
                 'claimedAt', c.claimed_at)
          from claims c join staff p on p.shop_id = $1 and p.id = c.technician_id
         where c.shop_id = $1 and c.work_order_id = w.id and c.released_at is null) as claim,
       (select jsonb_build_object('id', a.id, 'version', a.version, 'bayId', a.bay_id, 'technicianId', a.technician_id,
                 'technicianName', p.display_name, 'startsAt', a.starts_at, 'endsAt', a.ends_at)
          from assignments a join staff p on p.shop_id = $1 and p.id = a.technician_id
         where a.shop_id = $1 and a.work_order_id = w.id and a.cancelled_at is null) as assignment,
       clocked.seconds as "clockedSeconds", clocked.on_the_clock as "isOnTheClock",
       clocked.since_claim as "isClockedSinceClaim"
  from w
  join repair_orders ro on ro.shop_id = $1 and ro.id = w.repair_order_id
  join vehicles v on v.shop_id = $1 and v.id = ro.vehicle_id
  cross join lateral (
    select coalesce(sum(${entrySeconds('e')}), 0)::int as seconds,
           coalesce(bool_or(e.ended_at is null), false) as on_the_clock,
           coalesce(bool_or(coalesce(e.ended_at, 'infinity') > c.claimed_at), false) as since_claim
      from clock_entries e
      left join claims c on c.shop_id = $1 and c.work_order_id = w.id and c.released_at is null
        and c.technician_id = e.technician_id
     where e.shop_id = $1 and e.work_order_id = w.id and e.superseded_at is null) clocked`;

const WHOLE = `
select core.*, coalesce(needed.items, '[]') as items, coalesce(tooled.tools, '[]') as tools,
       coalesce(preceded.earlier, '[]') as earlier, unsafe.repair_order_id is not null as "isUnsafe"
  from core
  left join needed on needed.line_id = core."lineId"
  left join tooled on tooled.work_order_id = core.id
  left join preceded on preceded.work_order_id = core.id
  left join unsafe on unsafe.repair_order_id = core."repairOrderId"`;

/**
 * Work orders (`w`) that meet a condition, in the order of their numbers. `$1` and `$2` are the shop and the time, the
 * condition's own values follow. In two steps (`core` is computed before the rest is joined to it), because planning
 * one join of a dozen tables takes the database longer than doing it.
 */
export function workOrderFacts(
  tx: Tx,
  condition: string,
  values: readonly unknown[],
  order: 'asc' | 'desc' = 'asc',
  limit: number | null = null,
): Promise<WorkOrderFactsRow[]> {
  return tx.rows<WorkOrderFactsRow>(
    `with w as materialized (select w.* from work_orders w where w.shop_id = $1 and (${condition})
        order by w.number ${order} limit ${limit ?? 'all'}),
     core as materialized (${CORE}), ${GATHERED} ${WHOLE} order by core.number ${order}`,
    [tx.shopId, tx.now, ...values],
  );
}
