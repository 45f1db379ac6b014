import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import {
  allow,
  heldBy,
  mayBegin,
  takeClaim,
  takeWorkOrderInHand,
  type WorkOrderInHand,
} from '../../work-orders/index.js';
import { notAuthorised } from '../queries/answer.query.js';

/**
 * The work order, locked, if this person may clock on it: the owner agreed, nobody else holds it, nothing holds it up.
 * The lock is the same that a decline takes, so that of a decline and a clock-on one comes first and the other sees it.
 */
export async function takeAuthorisedWork(tx: Tx, workOrderId: string): Promise<Result<WorkOrderInHand>> {
  const inHand = await takeWorkOrderInHand(tx, workOrderId);
  if (!inHand.ok) return inHand;
  const { row, floor } = inHand.value;
  if (row.withdrawnAt !== null || row.latestAnswer !== 'approved') return notAuthorised(tx, row.lineId);
  if (row.claim && row.claim.technicianId !== tx.staffId) return heldBy(row.claim, floor.timeZone);
  return inHand;
}

/** Whoever clocks on what nobody holds takes it with the same tap. */
export async function holdForWork(tx: Tx, inHand: WorkOrderInHand): Promise<Result<void>> {
  const { row, floor } = inHand;
  const allowed = allow(inHand, row.claim ? 'clock-on' : 'claim');
  if (!allowed.ok) return allowed;
  const may = mayBegin(inHand, tx.staffId);
  if (!may.ok || row.claim) return may;
  const claim = await takeClaim(tx, row.id, floor.timeZone);
  return claim.ok ? ok(undefined) : claim;
}
