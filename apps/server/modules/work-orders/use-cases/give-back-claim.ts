import { can } from '#libs/access';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { allow, takeWorkOrderInHand } from '../data/in-hand.js';

/** The holder gives the work order back; a manager may do it for somebody else and says why. Not while on the clock. */
export async function giveBackClaim(
  tx: Tx,
  workOrderId: string,
  reason: string | undefined,
): Promise<Result<void>> {
  const inHand = await takeWorkOrderInHand(tx, workOrderId);
  if (!inHand.ok) return inHand;
  const { claim } = inHand.value.row;
  if (!claim) return fail('work-order-not-held', 'Nobody holds this work order.');
  const isOwn = claim.technicianId === tx.staffId;
  if (!isOwn && !mayManage(tx))
    return fail(
      'work-order-not-held',
      `${claim.displayName} holds this work order, so ${claim.displayName} or a manager gives it back.`,
      {
        facts: { holder: { id: claim.technicianId, displayName: claim.displayName } },
      },
    );
  if (!isOwn && reason === undefined)
    return fail('request-invalid', 'Say why you take it from somebody else.', {
      fields: [{ pointer: '/reason', detail: `Give the reason; ${claim.displayName} will see it.` }],
    });
  const allowed = allow(inHand.value, 'give-back');
  if (!allowed.ok) return allowed;
  await tx.em.query(
    `update claims set released_at = $3, release_reason = $4 where shop_id = $1 and id = $2`,
    [tx.shopId, claim.id, tx.now, reason ?? null],
  );
  await tx.audit('work-order.give-back', 'work-order', workOrderId, {
    claimId: claim.id,
    holder: claim.technicianId,
    reason: reason ?? null,
  });
  tx.announce('claim', { workOrderId, claimId: claim.id });
  return ok(undefined);
}

/** Acting in place of another person takes the role that may also close their clock entries. */
export function mayManage(tx: Tx): boolean {
  return tx.actor.kind === 'staff' && can(tx.actor.roles, 'clock.close-for-other');
}
