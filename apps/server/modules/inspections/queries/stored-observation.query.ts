import type { Tx } from '../../../platform/database/tx.js';
import { CHECKPOINT_COLUMNS, type StoredCheckpoint } from '../data/checkpoint.mapping.js';
import { ObservationRow } from '../data/observation.entity.js';
import { ReadingRow } from '../data/reading.entity.js';

/** A checkpoint of this template; one of another template is none. */
export async function checkpointOf(
  tx: Tx,
  templateId: string,
  checkpointId: string,
): Promise<StoredCheckpoint | undefined> {
  return tx.one<StoredCheckpoint>(
    `select ${CHECKPOINT_COLUMNS} from checkpoints c where c.shop_id = $1 and c.template_id = $2 and c.id = $3`,
    [tx.shopId, templateId, checkpointId],
  );
}

export async function storedObservation(
  tx: Tx,
  inspectionId: string,
  checkpointId: string,
): Promise<{ row: ObservationRow; readings: ReadingRow[] } | null> {
  const row = await tx.em.findOneBy(ObservationRow, { shopId: tx.shopId, inspectionId, checkpointId });
  if (!row) return null;
  const readings = await tx.em.find(ReadingRow, {
    where: { shopId: tx.shopId, observationId: row.id },
    order: { sequence: 'ASC' },
  });
  return { row, readings };
}
