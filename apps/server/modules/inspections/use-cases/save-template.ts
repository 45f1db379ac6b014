import { fail, type FieldFault, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { CheckpointRow } from '../data/checkpoint.entity.js';
import { InspectionTemplateRow } from '../data/inspection-template.entity.js';
import { StationRow } from '../data/station.entity.js';
import type { CheckpointEntry, SaveTemplateRequest } from '../dto/template.request.js';
import type { TemplateResponse } from '../dto/template.response.js';
import { templateById } from '../queries/templates.query.js';

const MOST_CHECKPOINTS = 400;

/**
 * A walk over a vehicle, to be used from now on. What is saved stays as it is, so that an inspection of years ago can be
 * read as it was walked; saving under the same name makes the next edition.
 */
export async function saveTemplate(tx: Tx, request: SaveTemplateRequest): Promise<Result<TemplateResponse>> {
  const fields = templateFaults(request);
  if (fields.length > 0) return fail('request-invalid', 'The template does not work out.', { fields });
  const before = await tx.one<{ id: string; edition: number }>(
    `select id, edition from inspection_templates
      where shop_id = $1 and name = $2 and is_current for no key update`,
    [tx.shopId, request.name],
  );
  if (before)
    await tx.em.update(InspectionTemplateRow, { shopId: tx.shopId, id: before.id }, { isCurrent: false });
  const templateId = tx.newId();
  await tx.em.insert(InspectionTemplateRow, {
    shopId: tx.shopId,
    id: templateId,
    name: request.name,
    edition: (before?.edition ?? 0) + 1,
    isCurrent: true,
    createdAt: tx.now,
  });
  await storeStations(tx, templateId, request);
  await tx.audit('inspection-template.save', 'inspection-template', templateId, { name: request.name });
  return templateById(tx, templateId);
}

async function storeStations(tx: Tx, templateId: string, request: SaveTemplateRequest): Promise<void> {
  const stations: StationRow[] = [];
  const checkpoints: CheckpointRow[] = [];
  for (const [stationAt, station] of request.stations.entries()) {
    const stationId = tx.newId();
    const of = { shopId: tx.shopId, templateId };
    stations.push({ ...of, id: stationId, sequence: stationAt + 1, name: station.name });
    for (const [at, entry] of station.checkpoints.entries()) {
      checkpoints.push({
        ...of,
        id: tx.newId(),
        stationId,
        sequence: at + 1,
        component: entry.component,
        position: entry.position,
        readingName: entry.readingName ?? null,
        readingUnit: entry.readingUnit ?? null,
        limitComparator: entry.limit?.comparator ?? null,
        limitValue: entry.limit?.value ?? null,
        limitSource: entry.limit?.source ?? null,
      });
    }
  }
  await tx.em.insert(StationRow, stations);
  await tx.em.insert(CheckpointRow, checkpoints);
}

function templateFaults({ stations }: SaveTemplateRequest): FieldFault[] {
  const all = stations.flatMap(({ checkpoints }) => checkpoints);
  if (all.length === 0) return [{ pointer: '/stations', detail: 'A walk has at least one checkpoint.' }];
  if (all.length > MOST_CHECKPOINTS)
    return [{ pointer: '/stations', detail: `At most ${MOST_CHECKPOINTS} checkpoints in all.` }];
  return stations.flatMap(({ checkpoints }, s) => {
    if (checkpoints.length === 0)
      return [{ pointer: `/stations/${s}/checkpoints`, detail: 'A station has at least one checkpoint.' }];
    return checkpoints.flatMap((entry, c) => checkpointFaults(entry, `/stations/${s}/checkpoints/${c}`));
  });
}

function checkpointFaults(entry: CheckpointEntry, at: string): FieldFault[] {
  const named = entry.readingName != null;
  if (named !== (entry.readingUnit != null)) {
    const pointer = `${at}/${named ? 'readingUnit' : 'readingName'}`;
    return [{ pointer, detail: 'A reading has a name and a unit.' }];
  }
  if (entry.limit && !named)
    return [{ pointer: `${at}/limit`, detail: 'A limit needs a reading to be held against.' }];
  return [];
}
