import { fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { InspectionRow } from '../data/inspection.entity.js';
import { titleOf } from '../data/checkpoint.mapping.js';
import type { InspectionResponse } from '../dto/inspection.response.js';
import { inspectionById } from '../queries/inspection.query.js';
import { lockInspection } from '../queries/lock-inspection.query.js';
import { walkOf } from '../queries/walk.query.js';

/**
 * Ends the walk. From here on it stays as it is: it is what the owner will be told about. A repeat gives the same
 * answer.
 */
export async function completeInspection(tx: Tx, inspectionId: string): Promise<Result<InspectionResponse>> {
  const inspection = await lockInspection(tx, inspectionId);
  if (!inspection) return fail('not-found', 'There is no such inspection in this shop.');
  if (inspection.completedAt) return inspectionById(tx, inspectionId);
  const missing = (await walkOf(tx, inspectionId))
    .filter(({ checkpoint }) => checkpoint.observation === null)
    .map(({ stationName, checkpoint }) => ({
      checkpointId: checkpoint.id,
      station: stationName,
      title: titleOf(checkpoint),
    }));
  if (missing.length > 0) {
    const first = missing.slice(0, 3).map(({ title }) => title);
    const rest = missing.length > first.length ? ` and ${missing.length - first.length} more` : '';
    return fail(
      'inspection-incomplete',
      `Look at ${first.join('; ')}${rest}, or mark as unseen with the reason.`,
      { facts: { missing } },
    );
  }
  await tx.em.update(
    InspectionRow,
    { shopId: tx.shopId, id: inspectionId },
    { completedAt: tx.now, completedBy: tx.staffId, version: inspection.version + 1 },
  );
  const { repairOrderId } = inspection;
  await tx.audit('inspection.complete', 'inspection', inspectionId, { repairOrderId });
  tx.announce('inspection', { inspectionId, repairOrderId });
  return inspectionById(tx, inspectionId);
}
