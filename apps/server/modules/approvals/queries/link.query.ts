import { linkState, type LinkState } from '#libs/approval';
import type { Tx } from '../../../platform/database/tx.js';

/** A link as it was found by its token, and whom to call about it. */
export interface FoundLink {
  readonly id: string;
  readonly revisionId: string;
  readonly repairOrderId: string;
  readonly expiresAt: Date;
  readonly state: LinkState;
  readonly shopName: string;
  readonly shopPhone: string | null;
}

/** Undefined for a token that this shop never gave out. */
export async function linkByHash(tx: Tx, tokenHash: string): Promise<FoundLink | undefined> {
  const row = await tx.one<Omit<FoundLink, 'state'> & { revokedAt: Date | null }>(
    `select a.id, a.revision_id as "revisionId", a.repair_order_id as "repairOrderId", a.expires_at as "expiresAt",
        a.revoked_at as "revokedAt", s.name as "shopName", s.phone as "shopPhone"
       from approval_links a join shops s on s.shop_id = a.shop_id where a.shop_id = $1 and a.token_hash = $2`,
    [tx.shopId, tokenHash],
  );
  if (!row) return undefined;
  const { revokedAt, ...link } = row;
  return { ...link, state: linkState({ expiresAt: row.expiresAt, revokedAt, now: tx.now }) };
}
