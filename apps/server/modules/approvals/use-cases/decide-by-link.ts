import { fail, ok, type Result } from '#libs/kernel';
import { linkState } from '#libs/approval';
import type { Tx } from '../../../platform/database/tx.js';
import { closedLink } from '../data/closed-link.js';
import type { DecisionsResponse } from '../dto/approval-link.response.js';
import type { FoundLink } from '../queries/link.query.js';
import { recordDecisions, type Answers } from './record-decisions.js';

/** Notes that somebody acted on the link. Reading it leaves no trace: mail scanners open every address they see. */
export async function noteOpened(tx: Tx, linkId: string): Promise<Result<void>> {
  await tx.rows(
    `update approval_links set first_opened_at = $3 where shop_id = $1 and id = $2 and first_opened_at is null
     returning id`,
    [tx.shopId, linkId, tx.now],
  );
  return ok(undefined);
}

/** The owner's own answers. The link is looked at again here, held, so that a revocation is before them or after them. */
export async function decideByLink(
  tx: Tx,
  link: FoundLink,
  answers: Answers,
  wording: string,
): Promise<Result<DecisionsResponse>> {
  const held = await tx.one<{ expiresAt: Date; revokedAt: Date | null }>(
    `select expires_at as "expiresAt", revoked_at as "revokedAt" from approval_links
      where shop_id = $1 and id = $2 for update`,
    [tx.shopId, link.id],
  );
  if (!held) return fail('not-found', 'There is no such link.');
  const state = linkState({ ...held, now: tx.now });
  if (state !== 'open') return closedLink({ ...link, state });
  await noteOpened(tx, link.id);
  const { actor } = tx;
  return recordDecisions(tx, link.revisionId, answers, {
    channel: 'link',
    linkId: link.id,
    recordedBy: null,
    proof:
      actor.kind === 'owner' ? { address: actor.address, userAgent: actor.userAgent, wording } : { wording },
  });
}
