import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { CHECKPOINT_COLUMNS, checkpointResponse, type StoredCheckpoint } from '../data/checkpoint.mapping.js';
import type { TemplatesQuery } from '../dto/template.request.js';
import type { StationResponse, TemplateResponse, TemplateSummaryResponse } from '../dto/template.response.js';

interface Row extends Omit<TemplateSummaryResponse, 'createdAt'> {
  createdAt: Date;
}

const SUMMARY = `select t.id, t.name, t.edition, t.is_current as "isCurrent", t.created_at as "createdAt",
    (select count(*)::int from checkpoints c where c.shop_id = t.shop_id and c.template_id = t.id) as "checkpointCount"
  from inspection_templates t where t.shop_id = $1`;

const summary = (row: Row): TemplateSummaryResponse => ({ ...row, createdAt: row.createdAt.toISOString() });

/** The current edition of every template, or all editions; by name, the latest first. */
export async function allTemplates(
  tx: Tx,
  query: TemplatesQuery,
): Promise<Result<{ items: TemplateSummaryResponse[] }>> {
  const rows = await tx.rows<Row>(`${SUMMARY} and (t.is_current or $2) order by t.name, t.edition desc`, [
    tx.shopId,
    query.all === 'yes',
  ]);
  return ok({ items: rows.map(summary) });
}

export async function templateById(tx: Tx, templateId: string): Promise<Result<TemplateResponse>> {
  const row = await tx.one<Row>(`${SUMMARY} and t.id = $2`, [tx.shopId, templateId]);
  if (!row) return fail('not-found', 'There is no such inspection template in this shop.');
  const checkpoints = await tx.rows<StoredCheckpoint & { stationId: string; stationName: string }>(
    `select s.id as "stationId", s.name as "stationName", ${CHECKPOINT_COLUMNS}
       from stations s join checkpoints c on c.shop_id = s.shop_id and c.station_id = s.id
      where s.shop_id = $1 and s.template_id = $2 order by s.sequence, c.sequence`,
    [tx.shopId, templateId],
  );
  const stations = new Map<string, StationResponse>();
  for (const checkpoint of checkpoints) {
    const { stationId: id, stationName: name } = checkpoint;
    const station = stations.get(id) ?? { id, name, checkpoints: [] };
    station.checkpoints.push(checkpointResponse(checkpoint));
    stations.set(id, station);
  }
  return ok({ ...summary(row), stations: [...stations.values()] });
}
