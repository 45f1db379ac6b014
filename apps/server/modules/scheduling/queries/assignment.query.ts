import type { Tx } from '../../../platform/database/tx.js';
import type { AssignmentResponse, AssignmentWarningResponse } from '../dto/assignment.response.js';

type Row = Omit<AssignmentResponse, 'startsAt' | 'endsAt' | 'warnings'> & { startsAt: Date; endsAt: Date };

/** The assignment as it was just stored, with its tools. */
export async function storedAssignment(
  tx: Tx,
  assignmentId: string,
  warnings: AssignmentWarningResponse[],
): Promise<AssignmentResponse> {
  const row = await tx.one<Row>(
    `select a.id, a.work_order_id as "workOrderId", w.number as "workOrderNumber", a.bay_id as "bayId",
            a.technician_id as "technicianId", s.display_name as "technicianName",
            a.starts_at as "startsAt", a.ends_at as "endsAt", a.is_pinned as "isPinned", a.version,
            (select coalesce(jsonb_agg(jsonb_build_object('toolId', t.tool_id, 'name', k.name, 'unit', t.unit)
                      order by k.name), '[]')
               from assignment_tools t join special_tools k on k.shop_id = t.shop_id and k.id = t.tool_id
              where t.shop_id = a.shop_id and t.assignment_id = a.id and t.cancelled_at is null) as tools
       from assignments a
       join work_orders w on w.shop_id = a.shop_id and w.id = a.work_order_id
       join staff s on s.shop_id = a.shop_id and s.id = a.technician_id
      where a.shop_id = $1 and a.id = $2`,
    [tx.shopId, assignmentId],
  );
  if (!row) throw new Error('an assignment that was just stored is there');
  return { ...row, startsAt: row.startsAt.toISOString(), endsAt: row.endsAt.toISOString(), warnings };
}
