import { fail, ok, type Result } from '#libs/kernel';
import { checkObservation } from '#libs/inspection';
import type { Tx } from '../../../platform/database/tx.js';
import { openStay } from '../../repair-orders/index.js';
import { FindingRow } from '../data/finding.entity.js';
import type { RecordFindingRequest } from '../dto/finding.request.js';
import type { FindingResponse } from '../dto/finding.response.js';
import { findingById } from '../queries/findings.query.js';

/** Something that turned up under way, outside a walk. It becomes work only after the owner has agreed to a line for it. */
export async function recordFinding(
  tx: Tx,
  repairOrderId: string,
  request: RecordFindingRequest,
): Promise<Result<FindingResponse>> {
  const stay = await openStay(tx, repairOrderId);
  if (!stay.ok) return stay;
  const sound = checkFinding(request);
  if (!sound.ok) return sound;
  const workOrderId = request.workOrderId ?? null;
  if (workOrderId !== null && !(await isWorkOrderOf(tx, repairOrderId, workOrderId)))
    return fail('not-found', 'There is no such work order on this repair order.');
  const row: FindingRow = {
    shopId: tx.shopId,
    id: tx.newId(),
    repairOrderId,
    vehicleId: stay.value.vehicleId,
    observationId: null,
    workOrderId,
    title: request.title,
    verdict: request.verdict,
    mayDrive: request.mayDrive,
    explanation: request.explanation ?? null,
    consequence: request.consequence ?? null,
    stake: request.stake ?? null,
    lookAgainOn: request.lookAgainOn ?? null,
    lookAgainOdometer: request.lookAgainOdometer ?? null,
    foundBy: tx.staffId,
    foundAt: tx.now,
    withdrawnAt: null,
    version: 1,
  };
  await tx.em.insert(FindingRow, row);
  await tx.audit('finding.record', 'finding', row.id, { repairOrderId, workOrderId, title: row.title });
  tx.announce('finding', { findingId: row.id, repairOrderId });
  return findingById(tx, row.id);
}

type Said = Pick<RecordFindingRequest, 'verdict' | 'mayDrive' | 'lookAgainOn' | 'lookAgainOdometer'>;

/** The same rules as for an observation: watch needs a day or an odometer, and cannot forbid driving. */
export function checkFinding(said: Said): Result<void> {
  const checked = checkObservation(
    {
      checkpointId: '',
      verdict: said.verdict,
      mayDrive: said.mayDrive,
      unseenReason: null,
      lookAgainOn: said.lookAgainOn ?? null,
      lookAgainOdometer: said.lookAgainOdometer ?? null,
      readings: [],
      note: null,
    },
    { readingUnits: [] },
  );
  if (checked.ok) return ok(undefined);
  return fail('observation-not-consistent', 'The finding does not say all that its verdict needs.', {
    fields: checked.fault.fields,
  });
}

async function isWorkOrderOf(tx: Tx, repairOrderId: string, workOrderId: string): Promise<boolean> {
  const row = await tx.one(
    'select id from work_orders where shop_id = $1 and repair_order_id = $2 and id = $3',
    [tx.shopId, repairOrderId, workOrderId],
  );
  return row !== undefined;
}
