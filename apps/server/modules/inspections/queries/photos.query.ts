import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { PhotoFile } from '../../../platform/files/index.js';
import type { PhotoRow } from '../data/photo.entity.js';
import type { PhotoResponse } from '../dto/photo.js';

/** A stored photo and what it shows; whoever lets an owner see it compares the finding or the repair order. */
export interface OpenPhoto extends PhotoFile {
  readonly id: string;
  readonly repairOrderId: string;
  /** The finding it belongs to, directly or through its observation; null for a photo of a sound part. */
  readonly findingId: string | null;
}

export async function openPhoto(tx: Tx, photoId: string): Promise<Result<OpenPhoto>> {
  const row = await tx.one<OpenPhoto>(
    `select p.id, p.storage_key as "storageKey", p.sha256, p.media_type as "mediaType",
        coalesce(f.repair_order_id, i.repair_order_id, l.repair_order_id) as "repairOrderId", f.id as "findingId"
       from photos p
       left join observations o on o.shop_id = p.shop_id and o.id = p.observation_id
       left join inspections i on i.shop_id = o.shop_id and i.id = o.inspection_id
       left join findings f on f.shop_id = p.shop_id and f.withdrawn_at is null
                           and (f.id = p.finding_id or f.observation_id = p.observation_id)
       left join contingencies c on c.shop_id = p.shop_id and c.id = p.contingency_id
       left join lines l on l.shop_id = c.shop_id and l.id = c.line_id
      where p.shop_id = $1 and p.id = $2`,
    [tx.shopId, photoId],
  );
  return row ? ok(row) : fail('not-found', 'There is no such photo in this shop.');
}

/** What a photo is put to: one observation, one finding or one contingency. */
export type PhotoTarget =
  { readonly observationId: string } | { readonly findingId: string } | { readonly contingencyId: string };

interface PlaceOfPhotos {
  readonly table: 'observations' | 'findings' | 'contingencies';
  readonly column: 'observation_id' | 'finding_id' | 'contingency_id';
  readonly word: string;
  readonly id: string;
}

function placeOf(target: PhotoTarget): PlaceOfPhotos {
  if ('observationId' in target)
    return {
      table: 'observations',
      column: 'observation_id',
      word: 'observation',
      id: target.observationId,
    };
  if ('findingId' in target)
    return { table: 'findings', column: 'finding_id', word: 'finding', id: target.findingId };
  return {
    table: 'contingencies',
    column: 'contingency_id',
    word: 'contingency',
    id: target.contingencyId,
  };
}

/** Asked before the upload is read, so that nobody sends 25 MiB to a record that is not there. */
export async function photoTargetExists(tx: Tx, target: PhotoTarget): Promise<Result<void>> {
  const { table, id, word } = placeOf(target);
  const row = await tx.one(`select id from ${table} where shop_id = $1 and id = $2`, [tx.shopId, id]);
  return row ? ok(undefined) : fail('not-found', `There is no such ${word} in this shop.`);
}

export async function photoOf(
  tx: Tx,
  target: PhotoTarget,
  sha256: string,
): Promise<PhotoResponse | undefined> {
  const { column, id } = placeOf(target);
  const row = await tx.one<PhotoRow>(
    `select id, media_type as "mediaType", width, height, bytes, added_at as "addedAt"
       from photos where shop_id = $1 and ${column} = $2 and sha256 = $3`,
    [tx.shopId, id, sha256],
  );
  return row && photoResponse(row);
}

function photoResponse(row: PhotoRow): PhotoResponse {
  return {
    id: row.id,
    mediaType: row.mediaType,
    width: row.width,
    height: row.height,
    bytes: row.bytes,
    addedAt: row.addedAt.toISOString(),
  };
}
