import { fail, ok, type Result } from '#libs/kernel';
import { stageOf } from '#libs/workflow';
import type { Tx } from '../../../platform/database/tx.js';
import type {
  CustomerOnOrder,
  InspectionOnOrder,
  RepairOrderResponse,
  ReservationOnOrder,
  VehicleOnOrder,
} from '../dto/repair-order.response.js';
import { drivingWarnings } from './driving-warnings.query.js';
import { FACTS_COLUMNS, factsOf, type FactsRow } from './facts-sql.js';

interface Row extends FactsRow {
  id: string;
  number: number;
  concern: string;
  odometerUnit: string;
  odometerIn: number;
  odometerOut: number | null;
  wantsPartsBack: boolean;
  droppedOffAt: Date;
  promisedAt: Date | null;
  pickedUpAt: Date | null;
  openedByName: string;
  vehicle: VehicleOnOrder;
  customer: CustomerOnOrder;
  inspections: InspectionOnOrder[];
  findings: number;
  reservation: ReservationOnOrder | null;
  version: number;
}

/** One stay with its vehicle, customer, stage and counts, and the warnings that every surface repeats. */
export async function repairOrderById(tx: Tx, repairOrderId: string): Promise<Result<RepairOrderResponse>> {
  const row = await tx.one<Row>(SQL, [tx.shopId, repairOrderId]);
  if (!row) return fail('not-found', 'There is no such repair order in this shop.');
  const facts = factsOf(row);
  const orders = facts.workOrders.filter((state) => state !== 'withdrawn');
  return ok({
    id: row.id,
    number: row.number,
    stage: stageOf(facts),
    vehicle: row.vehicle,
    customer: row.customer,
    concern: row.concern,
    odometerUnit: row.odometerUnit,
    odometerIn: row.odometerIn,
    odometerOut: row.odometerOut,
    wantsPartsBack: row.wantsPartsBack,
    droppedOffAt: row.droppedOffAt.toISOString(),
    promisedAt: row.promisedAt?.toISOString() ?? null,
    pickedUpAt: row.pickedUpAt?.toISOString() ?? null,
    openedByName: row.openedByName,
    inspections: row.inspections.map((i) => ({
      ...i,
      startedAt: new Date(i.startedAt).toISOString(),
      completedAt: i.completedAt === null ? null : new Date(i.completedAt).toISOString(),
    })),
    reservation: row.reservation,
    counts: {
      findings: row.findings,
      openFindings: facts.openFindings,
      unsentLines: facts.unsentLines,
      undecidedLines: facts.undecidedLines,
      decidedLines: facts.decidedLines,
      workOrders: orders.length,
      openWorkOrders: orders.filter((state) => state !== 'checked').length,
    },
    warnings: await drivingWarnings(tx, repairOrderId),
    version: row.version,
  });
}

const SQL = `select r.id, r.number, r.concern, r.odometer_unit as "odometerUnit", r.odometer_in as "odometerIn",
    r.odometer_out as "odometerOut", r.wants_parts_back as "wantsPartsBack", r.dropped_off_at as "droppedOffAt",
    r.promised_at as "promisedAt", r.picked_up_at as "pickedUpAt", s.display_name as "openedByName", r.version,
    json_build_object('id', v.id, 'plate', v.plate, 'vin', v.vin, 'make', v.make, 'model', v.model, 'modelYear', v.model_year,
      'colour', v.colour, 'drivetrain', v.drivetrain, 'weightKg', v.weight_kg, 'heightMm', v.height_mm) as vehicle,
    json_build_object('id', c.id, 'displayName', c.display_name, 'phone', c.phone, 'email', c.email) as customer,
    coalesce((select json_agg(json_build_object('id', i.id, 'templateName', t.name, 'startedAt', i.started_at,
                                                'completedAt', i.completed_at) order by i.started_at, i.id)
                from inspections i join inspection_templates t on t.shop_id = i.shop_id and t.id = i.template_id
               where i.shop_id = r.shop_id and i.repair_order_id = r.id), '[]') as inspections,
    (select count(*)::int from findings f
      where f.shop_id = r.shop_id and f.repair_order_id = r.id and f.withdrawn_at is null) as findings,
    (select json_build_object('id', k.id, 'number', k.number) from reservations k
      where k.shop_id = r.shop_id and k.repair_order_id = r.id) as reservation,
    ${FACTS_COLUMNS}
  from repair_orders r
  join vehicles v on v.shop_id = r.shop_id and v.id = r.vehicle_id
  join customers c on c.shop_id = r.shop_id and c.id = r.customer_id
  join staff s on s.shop_id = r.shop_id and s.id = r.opened_by
 where r.shop_id = $1 and r.id = $2`;
