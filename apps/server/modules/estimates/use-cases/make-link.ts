import { fail, ok, type Result } from '#libs/kernel';
import { linkState } from '#libs/approval';
import type { Tx } from '../../../platform/database/tx.js';
import { ApprovalLinkRow } from '../data/approval-link.entity.js';
import type { LinkResponse } from '../dto/link.response.js';
import { hashOf, type LinkTokens } from '../link-tokens.js';
import { linksOf } from '../queries/links.query.js';

const HOUR = 3_600_000;

export async function validUntil(tx: Tx, validHours: number | undefined): Promise<Date> {
  const shop = await tx.one<{ hours: number }>(
    'select link_valid_hours as hours from shops where shop_id = $1',
    [tx.shopId],
  );
  return new Date(tx.now.getTime() + (validHours ?? shop?.hours ?? 1) * HOUR);
}

/** An address by which the owner opens a sent revision; a revision may have several. Its token is not in the answer. */
export async function makeLink(
  tx: Tx,
  tokens: LinkTokens,
  revisionId: string,
  validHours: number | undefined,
): Promise<Result<LinkResponse>> {
  const revision = await tx.one<{ repairOrderId: string; sentAt: Date | null }>(
    `select repair_order_id as "repairOrderId", sent_at as "sentAt" from revisions where shop_id = $1 and id = $2`,
    [tx.shopId, revisionId],
  );
  if (!revision) return fail('not-found', 'There is no such revision in this shop.');
  if (revision.sentAt === null)
    return fail('revision-not-sent', 'Send the revision first; a link shows what was sent.');
  const id = tx.newId();
  await tx.em.insert(ApprovalLinkRow, {
    shopId: tx.shopId,
    id,
    repairOrderId: revision.repairOrderId,
    revisionId,
    tokenHash: hashOf(tokens.tokenOf(tx.shopId, id)),
    madeBy: tx.staffId,
    madeAt: tx.now,
    expiresAt: await validUntil(tx, validHours),
  });
  await tx.audit('link.make', 'link', id, { revisionId });
  const made = (await linksOf(tx, revision.repairOrderId)).find((link) => link.id === id);
  if (!made) throw new Error('the link was just made');
  return ok(made);
}

/** Closes a link; one that is closed already stays as it was. What was decided by it stands. */
export async function revokeLink(tx: Tx, linkId: string): Promise<Result<void>> {
  const row = await tx.em.findOne(ApprovalLinkRow, {
    where: { shopId: tx.shopId, id: linkId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!row) return fail('not-found', 'There is no such link in this shop.');
  if (linkState({ ...row, now: tx.now }) === 'revoked') return ok(undefined);
  await tx.em.update(
    ApprovalLinkRow,
    { shopId: tx.shopId, id: linkId },
    { revokedAt: tx.now, revokedBy: tx.staffId },
  );
  await tx.audit('link.revoke', 'link', linkId, { revisionId: row.revisionId });
  tx.announce('revision', { revisionId: row.revisionId, repairOrderId: row.repairOrderId });
  return ok(undefined);
}
