import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { heldBy, holderOf, takeClaim } from '../data/claim.js';
import { allow, mayBegin, takeWorkOrderInHand } from '../data/in-hand.js';
import type { ClaimResponse } from '../dto/claim.response.js';
import { timeZoneOf } from '../queries/time-zone.query.js';

/**
 * The signed-in person takes the work order. Only what can really start is taken: whoever holds what waits for parts
 * keeps it from nobody and helps nobody. Asking again for what one holds already changes nothing.
 */
export async function claimWorkOrder(tx: Tx, workOrderId: string): Promise<Result<ClaimResponse>> {
  const early = await holderOf(tx, workOrderId);
  if (early && early.technicianId !== tx.staffId) return heldBy(early, await timeZoneOf(tx));
  const inHand = await takeWorkOrderInHand(tx, workOrderId);
  if (!inHand.ok) return inHand;
  const { row, floor } = inHand.value;
  if (row.claim && row.claim.technicianId !== tx.staffId) return heldBy(row.claim, floor.timeZone);
  if (row.claim) return ok(claimResponse(workOrderId, row.claim));
  const allowed = allow(inHand.value, 'claim');
  if (!allowed.ok) return allowed;
  const may = mayBegin(inHand.value, tx.staffId);
  if (!may.ok) return may;
  const claim = await takeClaim(tx, workOrderId, floor.timeZone);
  return claim.ok ? ok(claimResponse(workOrderId, claim.value)) : claim;
}

function claimResponse(
  workOrderId: string,
  claim: { id: string; technicianId: string; displayName: string; claimedAt: string },
): ClaimResponse {
  return {
    id: claim.id,
    workOrderId,
    technicianId: claim.technicianId,
    displayName: claim.displayName,
    claimedAt: new Date(claim.claimedAt).toISOString(),
  };
}
