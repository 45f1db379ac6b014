import { verdictWord, type MayDrive } from '#libs/inspection';
import type { Tx } from '../../../platform/database/tx.js';
import type { DrivingWarning } from '../dto/repair-order.response.js';

/** True where a line that answers finding `f` led to work that was checked. */
export const REPAIRED = `exists (select 1 from line_findings lf
    join work_orders w on w.shop_id = lf.shop_id and w.line_id = lf.line_id
   where lf.shop_id = f.shop_id and lf.finding_id = f.id and w.withdrawn_at is null and w.checked_at is not null)`;

/** What keeps the car from being driven, worst first: not withdrawn and not repaired. */
export async function drivingWarnings(tx: Tx, repairOrderId: string): Promise<DrivingWarning[]> {
  const rows = await tx.rows<{
    findingId: string;
    title: string;
    verdict: 'watch' | 'repair';
    mayDrive: MayDrive;
  }>(
    `select f.id as "findingId", f.title, f.verdict, f.may_drive as "mayDrive" from findings f
      where f.shop_id = $1 and f.repair_order_id = $2 and f.withdrawn_at is null and f.may_drive <> 'yes' and not ${REPAIRED}
      order by f.may_drive = 'no' desc, f.found_at, f.id`,
    [tx.shopId, repairOrderId],
  );
  return rows.map((row) => {
    const word = verdictWord(row);
    const may =
      row.mayDrive === 'no'
        ? 'This vehicle must not be driven with it.'
        : 'This vehicle may be driven to the shop only, and no further.';
    return {
      findingId: row.findingId,
      title: row.title,
      word,
      mayDrive: row.mayDrive,
      warning: `${word}: ${row.title}. ${may}`,
    };
  });
}
