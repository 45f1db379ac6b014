import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { letIntoPlan, takeWorkOrderInHand, type WorkOrderInHand } from '../../work-orders/index.js';
import { AssignmentRow } from '../data/assignment.entity.js';
import { AssignmentToolRow } from '../data/assignment-tool.entity.js';
import { fitPlace } from '../data/fit-place.js';
import { cutOwnHold } from '../data/own-hold.js';
import type { AssignWorkOrderRequest } from '../dto/assignment.request.js';
import type { AssignmentResponse } from '../dto/assignment.response.js';
import { storedAssignment } from '../queries/assignment.query.js';

/** Gives a work order a bay, a technician, its tools and a time, by hand. */
export async function assignWorkOrder(
  tx: Tx,
  request: AssignWorkOrderRequest,
): Promise<Result<AssignmentResponse>> {
  const inHand = await takeWorkOrderInHand(tx, request.workOrderId);
  if (!inHand.ok) return inHand;
  const open = mayBePlanned(inHand.value);
  if (!open.ok) return open;
  const { assignment } = inHand.value.row;
  if (assignment)
    return fail('work-order-already-assigned', 'The work order has a place. Move it instead.', {
      facts: { assignmentId: assignment.id },
    });
  const place = {
    bayId: request.bayId.toLowerCase(),
    technicianId: request.technicianId.toLowerCase(),
    startsAt: new Date(request.startsAt),
    endsAt: new Date(request.endsAt),
  };
  const fits = await fitPlace(tx, inHand.value, place, null);
  if (!fits.ok) return fits;
  const bayUntil = await cutOwnHold(tx, inHand.value, place, null);
  const id = tx.newId();
  const of = { shopId: tx.shopId, startsAt: place.startsAt, endsAt: place.endsAt };
  await tx.em.insert(AssignmentRow, {
    ...of,
    id,
    workOrderId: inHand.value.row.id,
    bayId: place.bayId,
    technicianId: place.technicianId,
    bayUntil,
    isPinned: request.isPinned ?? true,
    madeBy: tx.staffId,
    madeAt: tx.now,
    version: 1,
  });
  await tx.em.insert(
    AssignmentToolRow,
    fits.value.tools.map(({ toolId, unit }) => ({ ...of, assignmentId: id, toolId, unit })),
  );
  await letIntoPlan(tx, inHand.value.row.id);
  await tx.audit('assignment.make', 'assignment', id, { workOrderId: inHand.value.row.id, ...place });
  tx.announce('assignment', { assignmentId: id, workOrderId: inHand.value.row.id });
  return ok(await storedAssignment(tx, id, fits.value.warnings));
}

/** Work that is done, checked or withdrawn needs no place. */
export function mayBePlanned({ row, standing }: WorkOrderInHand): Result<void> {
  const isOver = row.finishedAt !== null || row.withdrawnAt !== null;
  return isOver
    ? fail('work-order-state', `Work order ${row.number} is ${standing.state} and needs no place.`, {
        facts: { state: standing.state },
      })
    : ok(undefined);
}
