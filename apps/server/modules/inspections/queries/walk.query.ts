import { verdictWord, type MayDrive, type Verdict } from '#libs/inspection';
import type { Tx } from '../../../platform/database/tx.js';
import { CHECKPOINT_COLUMNS, checkpointResponse, type StoredCheckpoint } from '../data/checkpoint.mapping.js';
import { photoResponses, photosJson, type PhotoJson } from '../data/photo.mapping.js';
import { proposalFor } from '../data/proposal.js';
import type { CheckpointOnWalk, ObservationResponse, ReadingResponse } from '../dto/inspection.response.js';

interface StoredObservation {
  id: string;
  verdict: Verdict;
  mayDrive: MayDrive | null;
  unseenReason: string | null;
  lookAgainOn: string | null;
  lookAgainOdometer: number | null;
  note: string | null;
  consequence: string | null;
  limitText: string | null;
  limitSource: string | null;
  readings: ReadingResponse[];
  photos: PhotoJson[];
  findingId: string | null;
  observedByName: string;
  observedAt: string;
  version: number;
}

interface Row extends StoredCheckpoint {
  stationId: string;
  stationName: string;
  observation: StoredObservation | null;
}

export interface WalkedCheckpoint {
  readonly stationId: string;
  readonly stationName: string;
  readonly checkpoint: CheckpointOnWalk;
}

/** The checkpoints of an inspection in walking order, each with what was seen; or only one of them. */
export async function walkOf(
  tx: Tx,
  inspectionId: string,
  checkpointId: string | null = null,
): Promise<WalkedCheckpoint[]> {
  const rows = await tx.rows<Row>(SQL, [tx.shopId, inspectionId, checkpointId]);
  return rows.map((row) => ({
    stationId: row.stationId,
    stationName: row.stationName,
    checkpoint: {
      ...checkpointResponse(row),
      observation: row.observation && observationResponse(row, row.observation),
    },
  }));
}

function observationResponse(checkpoint: StoredCheckpoint, o: StoredObservation): ObservationResponse {
  return {
    id: o.id,
    checkpointId: checkpoint.id,
    verdict: o.verdict,
    word: verdictWord(o),
    mayDrive: o.mayDrive,
    unseenReason: o.unseenReason,
    lookAgainOn: o.lookAgainOn,
    lookAgainOdometer: o.lookAgainOdometer,
    readings: o.readings,
    note: o.note,
    consequence: o.consequence,
    limitText: o.limitText,
    limitSource: o.limitSource,
    proposal: proposalFor(checkpoint, o.readings),
    findingId: o.findingId,
    photos: photoResponses(o.photos),
    observedByName: o.observedByName,
    observedAt: new Date(o.observedAt).toISOString(),
    version: o.version,
  };
}

const SQL = `select s.id as "stationId", s.name as "stationName", ${CHECKPOINT_COLUMNS},
    case when o.id is null then null else json_build_object('id', o.id, 'verdict', o.verdict, 'mayDrive', o.may_drive,
      'unseenReason', o.unseen_reason, 'lookAgainOn', o.look_again_on, 'lookAgainOdometer', o.look_again_odometer,
      'note', o.note, 'consequence', o.consequence, 'limitText', o.limit_text, 'limitSource', o.limit_source,
      'readings', coalesce((select json_agg(json_build_object('name', r.name, 'value', r.value, 'unit', r.unit) order by r.sequence)
                              from readings r where r.shop_id = o.shop_id and r.observation_id = o.id), '[]'),
      'photos', ${photosJson('p.shop_id = o.shop_id and p.observation_id = o.id')},
      'findingId', f.id, 'observedByName', w.display_name, 'observedAt', o.observed_at, 'version', o.version) end as observation
  from inspections i
  join stations s on s.shop_id = i.shop_id and s.template_id = i.template_id
  join checkpoints c on c.shop_id = s.shop_id and c.station_id = s.id
  left join observations o on o.shop_id = i.shop_id and o.inspection_id = i.id and o.checkpoint_id = c.id
  left join staff w on w.shop_id = o.shop_id and w.id = o.observed_by
  left join findings f on f.shop_id = o.shop_id and f.observation_id = o.id and f.withdrawn_at is null
 where i.shop_id = $1 and i.id = $2 and ($3::uuid is null or c.id = $3)
 order by s.sequence, c.sequence`;
