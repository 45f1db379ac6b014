import { DateTime } from 'luxon';
import type { RevisionAbout } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { SHOWN_LANGUAGE } from '../shown-words.js';

interface AboutRow {
  shopName: string;
  shopPhone: string | null;
  shopAddress: string | null;
  timeZone: string;
  currency: string;
  repairOrderNumber: number;
  concern: string;
  odometer: number;
  odometerUnit: string;
  wantsPartsBack: boolean;
  customer: string;
  make: string;
  model: string;
  modelYear: number | null;
  plate: string | null;
  vin: string | null;
  sentBy: string;
}

const VIN_END = 8;

/**
 * What stands at the head of a revision: the shop, the vehicle, the stay. Plate or the end of the VIN and the odometer
 * belong on the document (Revised Code of Washington 46.71.015 asks for both; harmless elsewhere).
 */
export async function aboutRevision(
  tx: Tx,
  revision: { readonly repairOrderId: string; readonly number: number; readonly validUntil: Date },
): Promise<RevisionAbout> {
  const row = await tx.one<AboutRow>(
    `select s.name as "shopName", s.phone as "shopPhone", s.address as "shopAddress", s.time_zone as "timeZone", s.currency,
        r.number as "repairOrderNumber", r.concern, r.odometer_in as odometer, r.odometer_unit as "odometerUnit",
        r.wants_parts_back as "wantsPartsBack", c.display_name as customer, v.make, v.model, v.model_year as "modelYear",
        v.plate, v.vin, p.display_name as "sentBy"
       from repair_orders r join shops s on s.shop_id = r.shop_id
       join customers c on c.shop_id = r.shop_id and c.id = r.customer_id
       join vehicles v on v.shop_id = r.shop_id and v.id = r.vehicle_id
       join staff p on p.shop_id = r.shop_id and p.id = $3
      where r.shop_id = $1 and r.id = $2`,
    [tx.shopId, revision.repairOrderId, tx.staffId],
  );
  if (!row) throw new Error('the repair order is held');
  const { vin, make, model, ...rest } = row;
  const zoned = (at: Date): string =>
    DateTime.fromJSDate(at, { zone: row.timeZone }).toISO() ?? at.toISOString();
  return {
    ...rest,
    vehicle: `${make} ${model}`,
    vinEnd: vin === null ? null : vin.slice(-VIN_END),
    revisionNumber: revision.number,
    sentAt: zoned(tx.now),
    validUntil: zoned(revision.validUntil),
    language: SHOWN_LANGUAGE,
  };
}
