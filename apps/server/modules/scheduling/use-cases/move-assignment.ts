import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import type { WorkOrderInHand } from '../../work-orders/index.js';
import { fitPlace, type FittingPlace } from '../data/fit-place.js';
import { takeAssignmentInHand, type AssignmentInHand } from '../data/in-hand.js';
import { cutOwnHold, endOwnHold } from '../data/own-hold.js';
import type { MoveAssignmentRequest } from '../dto/assignment.request.js';
import type { AssignmentResponse } from '../dto/assignment.response.js';
import { storedAssignment } from '../queries/assignment.query.js';
import type { Place } from '../queries/conflicts.query.js';
import { mayBePlanned } from './assign-work-order.js';

/**
 * Moves a work order to another bay, technician or time; what is left out stays. Its tools move with it. What a person
 * has moved is pinned; whoever only says so pins it, or gives it to the plan, where it is.
 */
export async function moveAssignment(
  tx: Tx,
  assignmentId: string,
  version: number | '*',
  { isPinned, ...request }: MoveAssignmentRequest,
): Promise<Result<AssignmentResponse>> {
  const taken = await takeAssignmentInHand(tx, assignmentId);
  if (!taken.ok) return taken;
  const { inHand, place, stored } = taken.value;
  const current = checkVersion(version, stored);
  if (!current.ok) return current;
  const open = mayBePlanned(inHand);
  if (!open.ok) return open;
  if (isPinned !== undefined && isEmpty(request)) return pin(tx, assignmentId, inHand, isPinned);
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
  const bayUntil = await waitsAfter(tx, assignmentId, taken.value, wanted);
  await store(tx, assignmentId, { ...wanted, bayUntil, isPinned: isPinned ?? true }, fits.value.tools);
  await tx.audit('assignment.move', 'assignment', assignmentId, { from: place, to: wanted });
  tx.announce('assignment', { assignmentId, workOrderId: inHand.row.id });
  return ok(await storedAssignment(tx, assignmentId, fits.value.warnings));
}

const isEmpty = (request: object): boolean => Object.values(request).every((value) => value === undefined);

async function pin(
  tx: Tx,
  assignmentId: string,
  { row }: WorkOrderInHand,
  isPinned: boolean,
): Promise<Result<AssignmentResponse>> {
  await tx.em.query(
    `update assignments set is_pinned = $3, version = version + 1 where shop_id = $1 and id = $2`,
    [tx.shopId, assignmentId, isPinned],
  );
  await tx.audit(isPinned ? 'assignment.pin' : 'assignment.unpin', 'assignment', assignmentId, {});
  tx.announce('assignment', { assignmentId, workOrderId: row.id });
  return ok(await storedAssignment(tx, assignmentId, []));
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

/** Until when the vehicle, being apart, keeps the bay after the work: as before where that is within what it held. */
async function waitsAfter(
  tx: Tx,
  assignmentId: string,
  { inHand, place, bayUntil }: AssignmentInHand,
  to: Place,
): Promise<Date | null> {
  if (to.bayId !== place.bayId) await endOwnHold(tx, inHand, place);
  const between = await cutOwnHold(tx, inHand, to, assignmentId);
  if (bayUntil === null || to.bayId !== place.bayId) return between;
  return to.endsAt >= place.startsAt && to.endsAt < bayUntil ? bayUntil : between;
}

interface Stored extends Place {
  readonly bayUntil: Date | null;
  readonly isPinned: boolean;
}

async function store(tx: Tx, assignmentId: string, to: Stored, tools: FittingPlace['tools']): Promise<void> {
  await tx.em.query(
    `update assignments set bay_id = $3, technician_id = $4, starts_at = $5, ends_at = $6, bay_until = $7, is_pinned = $8,
            made_by = $9, plan_run_id = null, made_at = $10, version = version + 1
      where shop_id = $1 and id = $2`,
    [
      ...[tx.shopId, assignmentId, to.bayId, to.technicianId, to.startsAt, to.endsAt, to.bayUntil],
      ...[to.isPinned, tx.staffId, tx.now],
    ],
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
