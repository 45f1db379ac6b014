import type { EstimateLine, LinePackage, OrderDiscount } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { packagesInUse } from '../../catalogue/index.js';
import { orderDiscount, type StoredOrderDiscount } from '../data/discount.mapping.js';
import { estimateLine } from '../data/line.mapping.js';
import { packagesOfLines } from '../data/line-packages.js';
import type { LineFacts } from './lines.query.js';

/** What a revision is priced by beside policy and what was agreed to; a draft's as it is now. */
export interface RevisionTerms {
  readonly lines: readonly EstimateLine[];
  readonly orderDiscount: OrderDiscount | undefined;
  readonly packages: readonly LinePackage[] | undefined;
}

/** Packages are undefined where the lines form none, so that a document says nothing of them. */
export async function draftTerms(
  tx: Tx,
  revisionId: string,
  facts: readonly LineFacts[],
): Promise<RevisionTerms> {
  const row = await tx.one<StoredOrderDiscount>(
    `select discount_labour_ppm as "labourPpm", discount_items_ppm as "itemsPpm", discount_cents as cents,
        discount_reason as reason from revisions where shop_id = $1 and id = $2`,
    [tx.shopId, revisionId],
  );
  const lines = facts.map(estimateLine);
  const packages = packagesOfLines(facts, lines, await packagesInUse(tx));
  return {
    lines,
    orderDiscount: row === undefined ? undefined : orderDiscount(row),
    packages: packages.length === 0 ? undefined : packages,
  };
}
