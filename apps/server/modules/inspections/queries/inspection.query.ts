import { fail, ok, type Result } from '#libs/kernel';
import { completeness } from '#libs/inspection';
import type { Tx } from '../../../platform/database/tx.js';
import type { InspectionResponse, StationOnWalk } from '../dto/inspection.response.js';
import { walkOf } from './walk.query.js';

interface Row {
  id: string;
  repairOrderId: string;
  templateId: string;
  templateName: string;
  edition: number;
  technicianName: string;
  startedAt: Date;
  completedAt: Date | null;
  completedByName: string | null;
  version: number;
}

/** One walk over a vehicle: stations in walking order, checkpoints, what was seen, and how far it has come. */
export async function inspectionById(tx: Tx, inspectionId: string): Promise<Result<InspectionResponse>> {
  const row = await tx.one<Row>(
    `select i.id, i.repair_order_id as "repairOrderId", i.template_id as "templateId", t.name as "templateName", t.edition,
        s.display_name as "technicianName", i.started_at as "startedAt", i.completed_at as "completedAt",
        b.display_name as "completedByName", i.version
       from inspections i
       join inspection_templates t on t.shop_id = i.shop_id and t.id = i.template_id
       join staff s on s.shop_id = i.shop_id and s.id = i.technician_id
       left join staff b on b.shop_id = i.shop_id and b.id = i.completed_by
      where i.shop_id = $1 and i.id = $2`,
    [tx.shopId, inspectionId],
  );
  if (!row) return fail('not-found', 'There is no such inspection in this shop.');
  const walk = await walkOf(tx, inspectionId);
  const stations = new Map<string, StationOnWalk>();
  for (const { stationId: id, stationName: name, checkpoint } of walk) {
    const station = stations.get(id) ?? { id, name, checkpoints: [] };
    station.checkpoints.push(checkpoint);
    stations.set(id, station);
  }
  const checkpoints = walk.map(({ checkpoint }) => checkpoint);
  const { missing, ...progress } = completeness(
    checkpoints,
    checkpoints.flatMap(({ id, observation }) => (observation ? [{ checkpointId: id }] : [])),
  );
  return ok({
    ...row,
    startedAt: row.startedAt.toISOString(),
    completedAt: row.completedAt?.toISOString() ?? null,
    progress: { ...progress, missing: [...missing] },
    stations: [...stations.values()],
  });
}
