import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';

/** A finding that a line answers may have been sent to the owner. The caller holds the finding's row FOR UPDATE. */
export async function refuseIfAnswered(tx: Tx, findingId: string): Promise<Result<void>> {
  const lines = await tx.rows<{ lineId: string; title: string }>(
    `select l.id as "lineId", l.title from line_findings lf
       join lines l on l.shop_id = lf.shop_id and l.id = lf.line_id
      where lf.shop_id = $1 and lf.finding_id = $2 order by l.sequence`,
    [tx.shopId, findingId],
  );
  if (lines.length === 0) return ok(undefined);
  return fail(
    'finding-in-use',
    `"${lines[0]?.title ?? ''}" answers this finding. Take it out of the line first.`,
    { facts: { lines } },
  );
}
