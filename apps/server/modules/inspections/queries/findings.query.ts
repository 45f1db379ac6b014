import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { FindingResponse } from '../dto/finding.response.js';
import { FINDING_COLUMNS, FINDING_TABLES, findingResponse, type FindingJson } from './findings-sql.js';

/** What was found on a stay and not withdrawn: the unsafe first, then in the order in which it was found. */
export async function findingsOfRepairOrder(
  tx: Tx,
  repairOrderId: string,
): Promise<Result<{ items: FindingResponse[] }>> {
  const here = await tx.one('select id from repair_orders where shop_id = $1 and id = $2', [
    tx.shopId,
    repairOrderId,
  ]);
  if (!here) return fail('not-found', 'There is no such repair order in this shop.');
  const rows = await tx.rows<FindingJson>(
    `select ${FINDING_COLUMNS} from ${FINDING_TABLES}
      where f.shop_id = $1 and f.repair_order_id = $2 and f.withdrawn_at is null
      order by (f.verdict = 'repair' and f.may_drive = 'no') desc, f.found_at, f.id`,
    [tx.shopId, repairOrderId],
  );
  return ok({ items: rows.map(findingResponse) });
}

export async function findingById(tx: Tx, findingId: string): Promise<Result<FindingResponse>> {
  const row = await tx.one<FindingJson>(
    `select ${FINDING_COLUMNS} from ${FINDING_TABLES} where f.shop_id = $1 and f.id = $2`,
    [tx.shopId, findingId],
  );
  return row ? ok(findingResponse(row)) : fail('not-found', 'There is no such finding in this shop.');
}
