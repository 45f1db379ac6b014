import type { Tx } from '../../../platform/database/tx.js';

/** The floor as the shop has it, for ever the same week. Minutes are since midnight. */
export interface FloorFacts {
  readonly timeZone: string;
  readonly dayStartsMinute: number;
  readonly dayEndsMinute: number;
  readonly technicians: readonly TechnicianFacts[];
  readonly bays: readonly {
    readonly id: string;
    readonly name: string;
    readonly kind: string;
    readonly maxHeightMm: number | null;
    readonly liftKind: string | null;
    readonly capacityKg: number | null;
  }[];
  readonly tools: readonly { readonly id: string; readonly name: string; readonly units: number }[];
  readonly operations: readonly OperationFacts[];
  /** The Monday that comes, or today if that is one: the replay begins then. YYYY-MM-DD. */
  readonly monday: string;
  /** From then on, YYYY-MM-DD. */
  readonly closedDays: readonly string[];
}

/** By the clock on the shop's wall, such as 2026-03-16T08:00. */
export interface AbsenceFacts {
  readonly from: string;
  readonly to: string;
}

export interface TechnicianFacts {
  readonly id: string;
  readonly name: string;
  readonly skills: readonly string[];
  /** Planned absences that are not over when the replay begins. */
  readonly absences: readonly AbsenceFacts[];
  readonly shifts: readonly {
    readonly weekday: number;
    readonly from: number;
    readonly to: number;
    readonly breakFrom: number | null;
    readonly breakTo: number | null;
  }[];
}

/** What an operation of the catalogue asks for. */
export interface OperationFacts {
  readonly id: string;
  readonly name: string;
  readonly hundredths: number;
  readonly needsLift: boolean;
  readonly bayKinds: readonly string[];
  readonly skills: readonly string[];
  readonly toolIds: readonly string[];
}

const SHOP = `
with first as (select date_trunc('week', ($2::timestamptz at time zone s.time_zone) + interval '6 days')::date as monday
                 from shops s where s.shop_id = $1)
select s.time_zone as "timeZone", to_char(first.monday, 'YYYY-MM-DD') as monday,
  (select coalesce(jsonb_agg(to_char(d.day, 'YYYY-MM-DD') order by d.day), '[]') from closed_days d
    where d.shop_id = $1 and d.day >= first.monday) as "closedDays", s.day_starts_minute as "dayStartsMinute", s.day_ends_minute as "dayEndsMinute",
  (select coalesce(jsonb_agg(jsonb_build_object('id', p.id, 'name', p.display_name,
      'skills', (select coalesce(jsonb_agg(k.skill order by k.skill), '[]') from technician_skills k
          where k.shop_id = $1 and k.technician_id = p.id),
      'absences', (select coalesce(jsonb_agg(jsonb_build_object(
            'from', to_char(a.starts_at at time zone s.time_zone, 'YYYY-MM-DD"T"HH24:MI'),
            'to', to_char(a.ends_at at time zone s.time_zone, 'YYYY-MM-DD"T"HH24:MI')) order by a.starts_at), '[]')
          from absences a where a.shop_id = $1 and a.technician_id = p.id and a.withdrawn_at is null
           and a.ends_at at time zone s.time_zone > first.monday),
      'shifts', (select coalesce(jsonb_agg(jsonb_build_object('weekday', w.weekday, 'from', w.from_minute, 'to', w.to_minute,
            'breakFrom', w.break_from_minute, 'breakTo', w.break_to_minute) order by w.weekday), '[]')
          from shift_patterns w where w.shop_id = $1 and w.technician_id = p.id)) order by p.display_name, p.id), '[]')
     from staff p where p.shop_id = $1 and p.is_active and 'technician' = any (p.roles)) as technicians,
  (select coalesce(jsonb_agg(jsonb_build_object('id', b.id, 'name', b.name, 'kind', b.kind, 'maxHeightMm', b.max_height_mm,
      'liftKind', b.lift_kind, 'capacityKg', b.capacity_kg) order by b.number), '[]')
     from bays b where b.shop_id = $1 and b.is_active) as bays,
  (select coalesce(jsonb_agg(jsonb_build_object('id', t.id, 'name', t.name, 'units', t.units) order by t.name), '[]')
     from special_tools t where t.shop_id = $1) as tools,
  (select coalesce(jsonb_agg(jsonb_build_object('id', o.id, 'name', o.name, 'needsLift', o.needs_lift,
      'bayKinds', to_jsonb(o.bay_kinds), 'skills', to_jsonb(o.skills),
      'hundredths', (select coalesce(sum(s.hundredths), 0) from operation_steps os
          join steps s on s.shop_id = $1 and s.id = os.step_id where os.shop_id = $1 and os.operation_id = o.id),
      'toolIds', (select coalesce(jsonb_agg(ot.tool_id order by ot.tool_id), '[]') from operation_tools ot
          where ot.shop_id = $1 and ot.operation_id = o.id)) order by o.code), '[]')
     from operations o where o.shop_id = $1 and o.is_active) as operations
  from shops s cross join first where s.shop_id = $1`;

export async function floorFacts(tx: Tx): Promise<FloorFacts> {
  const row = await tx.one<FloorFacts>(SHOP, [tx.shopId, tx.now]);
  if (!row) throw new Error('the shop of a transaction exists');
  return row;
}
