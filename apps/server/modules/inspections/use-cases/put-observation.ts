import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { openStay } from '../../repair-orders/index.js';
import { draftOf, saysTheSame, type ObservationDraft } from '../data/observation-draft.js';
import { ObservationRow } from '../data/observation.entity.js';
import { ReadingRow } from '../data/reading.entity.js';
import type { PutObservationRequest } from '../dto/inspection.request.js';
import type { ObservationResponse, ProposalResponse } from '../dto/inspection.response.js';
import { lockInspection, type LockedInspection } from '../queries/lock-inspection.query.js';
import { checkpointOf, storedObservation } from '../queries/stored-observation.query.js';
import { walkOf } from '../queries/walk.query.js';
import { checkDraft } from './check-draft.js';
import { followFinding } from './follow-finding.js';
import { touchInspection } from './touch-inspection.js';

export interface ObservationAddress {
  readonly inspectionId: string;
  readonly checkpointId: string;
  /** From If-Match; undefined where it was not sent. */
  readonly version: number | '*' | undefined;
}

/**
 * What was seen at a checkpoint, sound or not. The first time needs no version, a replacement does; the same again is
 * the same answer, whatever the version and even after completion, because a tablet resends what it never saw answered.
 */
export async function putObservation(
  tx: Tx,
  { inspectionId, checkpointId, version }: ObservationAddress,
  request: PutObservationRequest,
): Promise<Result<ObservationResponse>> {
  const inspection = await lockInspection(tx, inspectionId);
  if (!inspection) return fail('not-found', 'There is no such inspection in this shop.');
  const checkpoint = await checkpointOf(tx, inspection.templateId, checkpointId);
  if (!checkpoint) return fail('not-found', 'This checkpoint is not on the walk of this inspection.');
  const stored = await storedObservation(tx, inspectionId, checkpointId);
  const draft = draftOf(request, checkpoint);
  if (stored && saysTheSame(draft, stored.row, stored.readings))
    return answer(tx, inspectionId, checkpointId);
  const open = await stillOpen(tx, inspection);
  if (!open.ok) return open;
  const current = mayReplace(stored?.row ?? null, version);
  if (!current.ok) return current;
  const checked = checkDraft(draft, checkpoint);
  if (!checked.ok) return checked;
  const before = stored?.row ?? null;
  const observationId = await store(tx, {
    inspectionId,
    checkpointId,
    before,
    draft,
    proposal: checked.value,
  });
  const followed = await followFinding(tx, { inspection, checkpoint, observationId, before, draft });
  if (!followed.ok) return followed;
  await touchInspection(tx, inspection);
  if (before)
    await tx.audit('observation.replace', 'observation', observationId, {
      before: { verdict: before.verdict, mayDrive: before.mayDrive, note: before.note },
      after: { verdict: draft.verdict, mayDrive: draft.mayDrive, note: draft.note },
    });
  return answer(tx, inspectionId, checkpointId);
}

async function stillOpen(tx: Tx, inspection: LockedInspection): Promise<Result<unknown>> {
  if (inspection.completedAt)
    return fail(
      'inspection-completed',
      'The inspection is completed and stays as it was. Record what you see now as a finding.',
    );
  return openStay(tx, inspection.repairOrderId);
}

function mayReplace(stored: ObservationRow | null, version: number | '*' | undefined): Result<void> {
  if (!stored) {
    if (version === undefined) return ok(undefined);
    return fail('stale-version', 'Nothing was recorded here yet. Send it without If-Match.');
  }
  if (version === undefined)
    return fail(
      'version-needed',
      'This checkpoint was recorded already. Load it, and send If-Match with its ETag to replace it.',
      { facts: { currentVersion: stored.version } },
    );
  return checkVersion(version, stored.version);
}

interface Writing {
  readonly inspectionId: string;
  readonly checkpointId: string;
  readonly before: ObservationRow | null;
  readonly draft: ObservationDraft;
  readonly proposal: ProposalResponse | null;
}

async function store(
  tx: Tx,
  { inspectionId, checkpointId, before, draft, proposal }: Writing,
): Promise<string> {
  const { readings, ...said } = draft;
  const columns = {
    ...said,
    limitText: proposal?.limitText ?? null,
    limitSource: proposal?.limitSource ?? null,
    observedBy: tx.staffId,
    observedAt: tx.now,
    version: (before?.version ?? 0) + 1,
  };
  const observationId = before?.id ?? tx.newId();
  const key = { shopId: tx.shopId, id: observationId };
  if (before) await tx.em.update(ObservationRow, key, columns);
  else await tx.em.insert(ObservationRow, { ...key, inspectionId, checkpointId, ...columns });
  const of = { shopId: tx.shopId, observationId };
  if (before) await tx.em.delete(ReadingRow, of);
  if (readings.length > 0)
    await tx.em.insert(
      ReadingRow,
      readings.map((reading, at) => ({ ...of, ...reading, sequence: at + 1 })),
    );
  return observationId;
}

async function answer(
  tx: Tx,
  inspectionId: string,
  checkpointId: string,
): Promise<Result<ObservationResponse>> {
  const [walked] = await walkOf(tx, inspectionId, checkpointId);
  const observation = walked?.checkpoint.observation;
  if (!observation) throw new Error('the observation was just stored');
  return ok(observation);
}
