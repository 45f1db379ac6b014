import { cents, type Cents } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';

export interface VehicleOnEstimate {
  readonly words: string;
  /** What the vehicle is worth, if the shop has entered it. */
  readonly valueCents: Cents | null;
}

/** The vehicle of a stay as an estimate names it. */
export async function vehicleOnEstimate(tx: Tx, repairOrderId: string): Promise<VehicleOnEstimate> {
  const row = await tx.one<{ words: string; valueCents: number | null }>(
    `select concat_ws(' ', v.make, v.model, v.model_year) as words, v.value_cents as "valueCents"
       from repair_orders r join vehicles v on v.shop_id = r.shop_id and v.id = r.vehicle_id
      where r.shop_id = $1 and r.id = $2`,
    [tx.shopId, repairOrderId],
  );
  const value = row?.valueCents ?? null;
  return { words: row?.words ?? '', valueCents: value === null ? null : cents(value) };
}
