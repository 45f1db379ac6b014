import type { Tx } from '../../../platform/database/tx.js';

/** A work order in a bay with a technician for a time. */
export interface Place {
  readonly bayId: string;
  readonly technicianId: string;
  readonly startsAt: Date;
  readonly endsAt: Date;
}

/** What is planned already at a time: what the one who comes second is told. */
export interface Holder {
  readonly workOrderNumber: number;
  readonly startsAt: string;
  readonly endsAt: string;
}

export interface Conflict extends Holder {
  readonly isSameBay: boolean;
  readonly isSameTechnician: boolean;
  readonly isSameVehicle: boolean;
  readonly bayName: string;
}

const OVERLAPS = (row: string): string => `tstzrange(${row}.starts_at, ${row}.ends_at) && tstzrange($3, $4)`;

/** Everything planned in the same time that has the bay, the technician or the vehicle in common. */
export async function conflictsOf(
  tx: Tx,
  workOrderId: string,
  place: Place,
  assignmentId: string | null,
): Promise<Conflict[]> {
  const rows = await tx.rows<Omit<Conflict, 'startsAt' | 'endsAt'> & { startsAt: Date; endsAt: Date }>(
    `select w.number as "workOrderNumber", a.starts_at as "startsAt", a.ends_at as "endsAt", b.name as "bayName",
            a.bay_id = $5 as "isSameBay", a.technician_id = $6 as "isSameTechnician",
            w.repair_order_id = mine.repair_order_id as "isSameVehicle"
       from assignments a
       join work_orders w on w.shop_id = a.shop_id and w.id = a.work_order_id
       join work_orders mine on mine.shop_id = a.shop_id and mine.id = $7
       join bays b on b.shop_id = a.shop_id and b.id = a.bay_id
      where a.shop_id = $1 and a.cancelled_at is null and a.id is distinct from $2 and ${OVERLAPS('a')}
        and (a.bay_id = $5 or a.technician_id = $6 or w.repair_order_id = mine.repair_order_id)
      order by a.starts_at`,
    [tx.shopId, assignmentId, place.startsAt, place.endsAt, place.bayId, place.technicianId, workOrderId],
  );
  return rows.map((row) => ({
    ...row,
    startsAt: row.startsAt.toISOString(),
    endsAt: row.endsAt.toISOString(),
  }));
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
  const rows = await tx.rows<Omit<ToolUse, 'startsAt' | 'endsAt'> & { startsAt: Date; endsAt: Date }>(
    `select t.tool_id as "toolId", t.unit, w.number as "workOrderNumber", t.starts_at as "startsAt", t.ends_at as "endsAt"
       from assignment_tools t
       join assignments a on a.shop_id = t.shop_id and a.id = t.assignment_id
       join work_orders w on w.shop_id = a.shop_id and w.id = a.work_order_id
      where t.shop_id = $1 and t.cancelled_at is null and t.assignment_id is distinct from $2 and ${OVERLAPS('t')}
        and t.tool_id = any ($5)
      order by t.starts_at`,
    [tx.shopId, assignmentId, place.startsAt, place.endsAt, toolIds],
  );
  return rows.map((row) => ({
    ...row,
    startsAt: row.startsAt.toISOString(),
    endsAt: row.endsAt.toISOString(),
  }));
}
