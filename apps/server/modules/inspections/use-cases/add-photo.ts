import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { TakenPhoto } from '../../../platform/files/index.js';
import { openStay } from '../../repair-orders/index.js';
import { FindingRow } from '../data/finding.entity.js';
import { ObservationRow } from '../data/observation.entity.js';
import type { PhotoResponse } from '../dto/photo.js';
import { lockInspection } from '../queries/lock-inspection.query.js';
import { photoOf, type PhotoTarget } from '../queries/photos.query.js';
import { touchInspection } from './touch-inspection.js';

/** Puts a stored photo to an observation or a finding. The same photo again is the one that is there. */
export async function addPhoto(
  tx: Tx,
  target: Exclude<PhotoTarget, { contingencyId: string }>,
  photo: TakenPhoto,
): Promise<Result<PhotoResponse>> {
  const held = 'observationId' in target ? await holdObservation(tx, target) : await holdFinding(tx, target);
  return held.ok ? keepPhoto(tx, target, photo, held.value) : held;
}

/** Writes the row of a photo, unless the same picture is there; `mayAdd` is asked only where it is not. */
export async function keepPhoto(
  tx: Tx,
  target: PhotoTarget,
  photo: TakenPhoto,
  mayAdd: () => Promise<Result<void>>,
): Promise<Result<PhotoResponse>> {
  const there = await photoOf(tx, target, photo.sha256);
  if (there) return ok(there);
  const open = await mayAdd();
  if (!open.ok) return open;
  const ids = { observationId: null, findingId: null, contingencyId: null, ...target };
  await tx.rows(
    `insert into photos (shop_id, id, observation_id, finding_id, contingency_id, storage_key, sha256, media_type, width, height, bytes,
       taken_by, added_at)
     values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
    [
      tx.shopId,
      tx.newId(),
      ids.observationId,
      ids.findingId,
      ids.contingencyId,
      photo.storageKey,
      photo.sha256,
      photo.mediaType,
      photo.width,
      photo.height,
      photo.bytes,
      tx.staffId,
      tx.now,
    ],
  );
  const added = await photoOf(tx, target, photo.sha256);
  return added ? ok(added) : fail('not-found', 'There is no such photo in this shop.');
}

/** Holds the record, so that two equal uploads come one after the other, and says later whether it may be added to. */
type Held = Result<() => Promise<Result<void>>>;

async function holdObservation(tx: Tx, { observationId }: { observationId: string }): Promise<Held> {
  const row = await tx.em.findOneBy(ObservationRow, { shopId: tx.shopId, id: observationId });
  const inspection = row ? await lockInspection(tx, row.inspectionId) : undefined;
  if (!inspection) return fail('not-found', 'There is no such observation in this shop.');
  return ok(async () => {
    if (inspection.completedAt)
      return fail(
        'inspection-completed',
        'The inspection is completed and stays as it was. Add the photo to the finding.',
      );
    const stay = await openStay(tx, inspection.repairOrderId);
    if (!stay.ok) return stay;
    await touchInspection(tx, inspection);
    return ok(undefined);
  });
}

async function holdFinding(tx: Tx, { findingId }: { findingId: string }): Promise<Held> {
  const row = await tx.em.findOne(FindingRow, {
    where: { shopId: tx.shopId, id: findingId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!row) return fail('not-found', 'There is no such finding in this shop.');
  return ok(async () => {
    const stay = await openStay(tx, row.repairOrderId);
    if (!stay.ok) return stay;
    tx.announce('finding', { findingId, repairOrderId: row.repairOrderId });
    return ok(undefined);
  });
}
