import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { VehicleFindingResponse } from '../dto/finding.response.js';
import { FINDING_COLUMNS, FINDING_TABLES, findingFields, type FindingJson } from './findings-sql.js';

type Row = FindingJson & { repairOrderNumber: number };

/**
 * What is still open on a vehicle, over all its stays, the latest first: watched, deferred, declined, or never decided.
 * What was repaired and checked, agreed to, or withdrawn is not.
 */
export async function openFindingsOfVehicle(
  tx: Tx,
  vehicleId: string,
): Promise<Result<{ items: VehicleFindingResponse[] }>> {
  const known = await tx.one('select id from vehicles where shop_id = $1 and id = $2', [
    tx.shopId,
    vehicleId,
  ]);
  if (!known) return fail('not-found', 'There is no such vehicle in this shop.');
  const rows = await tx.rows<Row>(
    `select ${FINDING_COLUMNS}, r.number as "repairOrderNumber" from ${FINDING_TABLES}
       join repair_orders r on r.shop_id = f.shop_id and r.id = f.repair_order_id
      where f.shop_id = $1 and f.vehicle_id = $2 and f.withdrawn_at is null
      order by f.found_at desc, f.id desc`,
    [tx.shopId, vehicleId],
  );
  return ok({ items: rows.flatMap(stillOpen) });
}

function stillOpen(row: Row): VehicleFindingResponse[] {
  const answer = row.decision?.answer;
  if (answer === 'approved') return [];
  const finding = findingFields(row);
  const undecided = row.verdict === 'watch' ? 'watched' : 'undecided';
  const standing = answer === 'declined' || answer === 'deferred' ? answer : undecided;
  return [
    {
      ...finding,
      lookAgainOn: row.decision?.lookAgainOn ?? finding.lookAgainOn,
      repairOrderNumber: row.repairOrderNumber,
      standing,
    },
  ];
}
