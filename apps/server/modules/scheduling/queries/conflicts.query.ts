import type { Tx } from '../../../platform/database/tx.js';
import { HOLDER_COLUMNS, HOLDER_JOINS, holderOf, type Holder, type HolderRow } from './holder.js';

/** A work order in a bay with a technician for a time. */
export interface Place {
  readonly bayId: string;
  readonly technicianId: string;
  readonly startsAt: Date;
  readonly endsAt: Date;
}

export interface Conflict extends Holder {
  readonly isSameBay: boolean;
  readonly isSameTechnician: boolean;
  readonly isSameVehicle: boolean;
  readonly bayName: string;
}

const OVERLAPS = (row: string): string => `tstzrange(${row}.starts_at, ${row}.ends_at) && tstzrange($3, $4)`;
/** With the time for which a vehicle that is apart waits in the bay. */
const HOLDS = `tstzrange(a.starts_at, coalesce(a.bay_until, a.ends_at)) && tstzrange($3, $4)`;

/**
 * Everything planned in the same time that has the bay, the technician or the vehicle in common. A vehicle that waits in
 * the bay is not in the way of its own work. Without a work order: what is in the way of a place for a reservation.
 */
export async function conflictsOf(
  tx: Tx,
  workOrderId: string | null,
  place: Place,
  assignmentId: string | null,
): Promise<Conflict[]> {
  const rows = await tx.rows<Omit<Conflict, keyof Holder> & HolderRow>(
    `select ${HOLDER_COLUMNS}, a.starts_at as "startsAt", b.name as "bayName",
            case when a.bay_id = $5 then coalesce(a.bay_until, a.ends_at) else a.ends_at end as "endsAt",
            a.bay_id = $5 and (coalesce(w.repair_order_id <> mine.repair_order_id, true) or ${OVERLAPS('a')}) as "isSameBay",
            a.technician_id = $6 and ${OVERLAPS('a')} as "isSameTechnician",
            coalesce(w.repair_order_id = mine.repair_order_id, false) as "isSameVehicle"
       from assignments a ${HOLDER_JOINS}
       left join work_orders mine on mine.shop_id = a.shop_id and mine.id = $7
       join bays b on b.shop_id = a.shop_id and b.id = a.bay_id
      where a.shop_id = $1 and a.cancelled_at is null and a.id is distinct from $2 and ${HOLDS}
        and (a.bay_id = $5 or a.technician_id = $6 or w.repair_order_id = mine.repair_order_id)
      order by a.starts_at`,
    [tx.shopId, assignmentId, place.startsAt, place.endsAt, place.bayId, place.technicianId, workOrderId],
  );
  return rows.map(holderOf);
}

export interface ToolUse extends Holder {
  readonly toolId: string;
  readonly unit: number;
}

/** Which units of these tools are spoken for in the time. */
export async function toolUses(
  tx: Tx,
  toolIds: readonly string[],
  place: Place,
  assignmentId: string | null,
): Promise<ToolUse[]> {
  const rows = await tx.rows<Omit<ToolUse, keyof Holder> & HolderRow>(
    `select t.tool_id as "toolId", t.unit, ${HOLDER_COLUMNS}, t.starts_at as "startsAt", t.ends_at as "endsAt"
       from assignment_tools t
       join assignments a on a.shop_id = t.shop_id and a.id = t.assignment_id ${HOLDER_JOINS}
      where t.shop_id = $1 and t.cancelled_at is null and t.assignment_id is distinct from $2 and ${OVERLAPS('t')}
        and t.tool_id = any ($5)
      order by t.starts_at`,
    [tx.shopId, assignmentId, place.startsAt, place.endsAt, toolIds],
  );
  return rows.map(holderOf);
}
