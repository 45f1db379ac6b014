import { ok, type Result } from '#libs/kernel';
import { containsPattern } from '../../../platform/database/contains-pattern.js';
import type { Tx } from '../../../platform/database/tx.js';
import { decodeCursor, limitOf, pageOf } from '../../../platform/http/pages.js';
import type { CatalogueQuery } from '../dto/step.request.js';
import type { StepResponse } from '../dto/step.response.js';

/** Steps by code. A catalogue has some hundreds of them, so reading through the shop's own is quick. */
export async function stepsPage(
  tx: Tx,
  query: CatalogueQuery,
): Promise<Result<{ items: StepResponse[]; nextCursor: string | null }>> {
  const after = decodeCursor(query.cursor, 1)?.[0];
  const limit = limitOf(query);
  const rows = await tx.rows<StepResponse>(
    `select id, code, name, hundredths, rate_id as "rateId", version from steps
      where shop_id = $1 and ($2::text is null or code ilike $2 or name ilike $2) and ($3::text is null or code > $3)
      order by code limit $4`,
    [
      tx.shopId,
      query.q === undefined ? null : containsPattern(query.q),
      after === undefined ? null : String(after),
      limit + 1,
    ],
  );
  return ok(
    pageOf(
      rows,
      limit,
      (row) => row,
      (row) => [row.code],
    ),
  );
}
