import { fail, ok, type Result } from '#libs/kernel';
import { linkState } from '#libs/approval';
import type { Tx } from '../../../platform/database/tx.js';
import type { LinkResponse, LinksResponse } from '../dto/link.response.js';

interface LinkFacts {
  id: string;
  revisionId: string;
  revisionNumber: number;
  madeAt: Date;
  madeBy: string;
  expiresAt: Date;
  revokedAt: Date | null;
  firstOpenedAt: Date | null;
}

/** The links of a repair order, the latest first. Nobody can read an address from them. */
export async function linksOf(tx: Tx, repairOrderId: string): Promise<LinkResponse[]> {
  const rows = await tx.rows<LinkFacts>(
    `select a.id, a.revision_id as "revisionId", v.number as "revisionNumber", a.made_at as "madeAt",
        s.display_name as "madeBy", a.expires_at as "expiresAt", a.revoked_at as "revokedAt", a.first_opened_at as "firstOpenedAt"
       from approval_links a join revisions v on v.shop_id = a.shop_id and v.id = a.revision_id
       join staff s on s.shop_id = a.shop_id and s.id = a.made_by
      where a.shop_id = $1 and a.repair_order_id = $2 order by a.made_at desc, a.id desc`,
    [tx.shopId, repairOrderId],
  );
  return rows.map((row) => ({
    id: row.id,
    revisionId: row.revisionId,
    revisionNumber: row.revisionNumber,
    state: linkState({ expiresAt: row.expiresAt, revokedAt: row.revokedAt, now: tx.now }),
    madeAt: row.madeAt.toISOString(),
    madeBy: row.madeBy,
    expiresAt: row.expiresAt.toISOString(),
    revokedAt: row.revokedAt?.toISOString() ?? null,
    firstOpenedAt: row.firstOpenedAt?.toISOString() ?? null,
  }));
}

export async function linksPage(tx: Tx, repairOrderId: string): Promise<Result<LinksResponse>> {
  const known = await tx.one('select 1 from repair_orders where shop_id = $1 and id = $2', [
    tx.shopId,
    repairOrderId,
  ]);
  if (!known) return fail('not-found', 'There is no such repair order in this shop.');
  return ok({ items: await linksOf(tx, repairOrderId) });
}
