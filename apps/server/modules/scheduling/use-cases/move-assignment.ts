import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import type { WorkOrderInHand } from '../../work-orders/index.js';
import { fitPlace } from '../data/fit-place.js';
import { takeAssignmentInHand } from '../data/in-hand.js';
import type { MoveAssignmentRequest } from '../dto/assignment.request.js';
import type { AssignmentResponse } from '../dto/assignment.response.js';
import { storedAssignment } from '../queries/assignment.query.js';
import type { Place } from '../queries/conflicts.query.js';
import { mayBePlanned } from './assign-work-order.js';

/** Moves a work order to another bay, technician or time; what is left out stays. Its tools move with it. */
export async function moveAssignment(
  tx: Tx,
  assignmentId: string,
  version: number | '*',
  request: MoveAssignmentRequest,
): Promise<Result<AssignmentResponse>> {
  const taken = await takeAssignmentInHand(tx, assignmentId);
  if (!taken.ok) return taken;
  const { inHand, place, stored } = taken.value;
  const current = checkVersion(version, stored);
  if (!current.ok) return current;
  const open = mayBePlanned(inHand);
  if (!open.ok) return open;
  const wanted: Place = {
    bayId: request.bayId?.toLowerCase() ?? place.bayId,
    technicianId: request.technicianId?.toLowerCase() ?? place.technicianId,
    startsAt: request.startsAt === undefined ? place.startsAt : new Date(request.startsAt),
    endsAt: request.endsAt === undefined ? place.endsAt : new Date(request.endsAt),
  };
  const still = mayMove(inHand, place, wanted);
  if (!still.ok) return still;
  const fits = await fitPlace(tx, inHand, wanted, assignmentId);
  if (!fits.ok) return fits;
  await store(tx, assignmentId, wanted, fits.value.tools);
  await tx.audit('assignment.move', 'assignment', assignmentId, { from: place, to: wanted });
  tx.announce('assignment', { assignmentId, workOrderId: inHand.row.id });
  return ok(await storedAssignment(tx, assignmentId, fits.value.warnings));
}

/** What is running does not move: the car stands there. It may only take longer or shorter. */
function mayMove({ row, standing }: WorkOrderInHand, from: Place, to: Place): Result<void> {
  const isSameSpot =
    from.bayId === to.bayId &&
    from.technicianId === to.technicianId &&
    from.startsAt.getTime() === to.startsAt.getTime();
  if (standing.state !== 'on-the-clock' || isSameSpot) return ok(undefined);
  return fail(
    'work-order-state',
    `Work order ${row.number} is on the clock; only its end can be changed now.`,
    {
      facts: { state: standing.state },
    },
  );
}

async function store(
  tx: Tx,
  assignmentId: string,
  to: Place,
  tools: readonly { readonly toolId: string; readonly unit: number }[],
): Promise<void> {
  await tx.em.query(
    `update assignments set bay_id = $3, technician_id = $4, starts_at = $5, ends_at = $6, version = version + 1
      where shop_id = $1 and id = $2`,
    [tx.shopId, assignmentId, to.bayId, to.technicianId, to.startsAt, to.endsAt],
  );
  for (const { toolId, unit } of tools)
    await tx.em.query(
      `insert into assignment_tools (shop_id, assignment_id, tool_id, unit, starts_at, ends_at)
       values ($1, $2, $3, $4, $5, $6)
       on conflict (shop_id, assignment_id, tool_id) do update
         set unit = excluded.unit, starts_at = excluded.starts_at, ends_at = excluded.ends_at`,
      [tx.shopId, assignmentId, toolId, unit, to.startsAt, to.endsAt],
    );
}
