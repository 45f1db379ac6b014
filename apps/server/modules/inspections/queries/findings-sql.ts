import { verdictWord, type MayDrive } from '#libs/inspection';
import { photoResponses, photosJson, type PhotoJson } from '../data/photo.mapping.js';
import type { DecisionOnFinding, FindingResponse, LineOfFinding } from '../dto/finding.response.js';

export interface FindingJson {
  id: string;
  repairOrderId: string;
  vehicleId: string;
  observationId: string | null;
  workOrderId: string | null;
  title: string;
  verdict: 'watch' | 'repair';
  mayDrive: MayDrive;
  explanation: string | null;
  consequence: string | null;
  stake: string | null;
  lookAgainOn: string | null;
  lookAgainOdometer: number | null;
  foundByName: string;
  foundAt: Date;
  isWithdrawn: boolean;
  photos: PhotoJson[];
  lines: LineOfFinding[];
  decision: DecisionOnFinding | null;
  version: number;
}

/**
 * Columns over `findings f join staff s`. Photos are those of the finding and of its observation. The decision is the
 * latest on any line that answers it: one finding may be answered by two lines, and what was said last holds.
 */
export const FINDING_COLUMNS = `f.id, f.repair_order_id as "repairOrderId", f.vehicle_id as "vehicleId",
    f.observation_id as "observationId", f.work_order_id as "workOrderId", f.title, f.verdict, f.may_drive as "mayDrive",
    f.explanation, f.consequence, f.stake, f.look_again_on::text as "lookAgainOn", f.look_again_odometer as "lookAgainOdometer",
    s.display_name as "foundByName", f.found_at as "foundAt", f.withdrawn_at is not null as "isWithdrawn", f.version,
    ${photosJson('p.shop_id = f.shop_id and (p.finding_id = f.id or p.observation_id = f.observation_id)')} as photos,
    coalesce((select json_agg(json_build_object('lineId', l.id, 'title', l.title, 'revisionNumber', v.number,
                                                'isSent', v.sent_at is not null) order by v.number, l.sequence)
                from line_findings lf
                join lines l on l.shop_id = lf.shop_id and l.id = lf.line_id
                join revisions v on v.shop_id = l.shop_id and v.id = l.revision_id
               where lf.shop_id = f.shop_id and lf.finding_id = f.id), '[]') as lines,
    (select json_build_object('lineId', d.line_id, 'answer', d.answer, 'decidedAt', d.decided_at, 'decidedBy', d.decided_by,
                              'channel', d.channel, 'lookAgainOn', d.look_again_on)
       from decisions d join line_findings lf on lf.shop_id = d.shop_id and lf.line_id = d.line_id
      where lf.shop_id = f.shop_id and lf.finding_id = f.id
      order by d.decided_at desc, d.sequence desc limit 1) as decision`;

export const FINDING_TABLES = 'findings f join staff s on s.shop_id = f.shop_id and s.id = f.found_by';

/** What both answers about findings show. */
export function findingFields(row: FindingJson): Omit<FindingResponse, 'isWithdrawn'> {
  return {
    id: row.id,
    repairOrderId: row.repairOrderId,
    vehicleId: row.vehicleId,
    observationId: row.observationId,
    workOrderId: row.workOrderId,
    title: row.title,
    verdict: row.verdict,
    word: verdictWord(row),
    mayDrive: row.mayDrive,
    explanation: row.explanation,
    consequence: row.consequence,
    stake: row.stake,
    lookAgainOn: row.lookAgainOn,
    lookAgainOdometer: row.lookAgainOdometer,
    foundByName: row.foundByName,
    foundAt: row.foundAt.toISOString(),
    photos: photoResponses(row.photos),
    lines: row.lines,
    decision: row.decision && {
      ...row.decision,
      decidedAt: new Date(row.decision.decidedAt).toISOString(),
    },
    version: row.version,
  };
}

export function findingResponse(row: FindingJson): FindingResponse {
  return { ...findingFields(row), isWithdrawn: row.isWithdrawn };
}
