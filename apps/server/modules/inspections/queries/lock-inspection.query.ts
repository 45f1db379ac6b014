import type { Tx } from '../../../platform/database/tx.js';

export interface LockedInspection {
  readonly id: string;
  readonly repairOrderId: string;
  readonly vehicleId: string;
  readonly templateId: string;
  readonly completedAt: Date | null;
  readonly version: number;
}

/** Takes the inspection's row, so that its observations, photos and completion come one after the other. */
export async function lockInspection(tx: Tx, inspectionId: string): Promise<LockedInspection | undefined> {
  return tx.one<LockedInspection>(
    `select i.id, i.repair_order_id as "repairOrderId", r.vehicle_id as "vehicleId", i.template_id as "templateId",
        i.completed_at as "completedAt", i.version
       from inspections i join repair_orders r on r.shop_id = i.shop_id and r.id = i.repair_order_id
      where i.shop_id = $1 and i.id = $2 for no key update of i`,
    [tx.shopId, inspectionId],
  );
}
