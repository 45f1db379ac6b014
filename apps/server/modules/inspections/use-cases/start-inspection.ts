import { fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { openStay } from '../../repair-orders/index.js';
import { InspectionRow } from '../data/inspection.entity.js';
import { InspectionTemplateRow } from '../data/inspection-template.entity.js';
import type { StartInspectionRequest } from '../dto/inspection.request.js';
import type { InspectionResponse } from '../dto/inspection.response.js';
import { inspectionById } from '../queries/inspection.query.js';

/** Begins a walk over a vehicle that is here. A repair order may have several: after the work, say, or by a second person. */
export async function startInspection(
  tx: Tx,
  repairOrderId: string,
  request: StartInspectionRequest,
): Promise<Result<InspectionResponse>> {
  const stay = await openStay(tx, repairOrderId);
  if (!stay.ok) return stay;
  const template = await tx.em.findOneBy(InspectionTemplateRow, {
    shopId: tx.shopId,
    id: request.templateId,
  });
  if (!template) return fail('not-found', 'There is no such inspection template in this shop.');
  const row: InspectionRow = {
    shopId: tx.shopId,
    id: tx.newId(),
    repairOrderId,
    templateId: template.id,
    technicianId: tx.staffId,
    startedAt: tx.now,
    completedAt: null,
    completedBy: null,
    version: 1,
  };
  await tx.em.insert(InspectionRow, row);
  await tx.audit('inspection.start', 'inspection', row.id, { repairOrderId, template: template.name });
  tx.announce('inspection', { inspectionId: row.id, repairOrderId });
  return inspectionById(tx, row.id);
}
