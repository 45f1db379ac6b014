import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { RevisionRow } from '../data/revision.entity.js';
import { holdStay } from './hold-stay.js';

export interface Draft {
  readonly revisionId: string;
  readonly repairOrderId: string;
  readonly vehicleId: string;
  readonly version: number;
  readonly isNew: boolean;
}

/** The draft of a repair order, held until the transaction ends; begins one where there is none. */
export async function draftOf(tx: Tx, repairOrderId: string): Promise<Result<Draft>> {
  const stay = await holdStay(tx, repairOrderId);
  if (!stay.ok) return stay;
  const { vehicleId } = stay.value;
  const latest = await tx.one<{ id: string; number: number; version: number; sentAt: Date | null }>(
    `select id, number, version, sent_at as "sentAt" from revisions
      where shop_id = $1 and repair_order_id = $2 order by number desc limit 1 for update`,
    [tx.shopId, repairOrderId],
  );
  if (latest?.sentAt === null)
    return ok({ revisionId: latest.id, repairOrderId, vehicleId, version: latest.version, isNew: false });
  const revisionId = tx.newId();
  const number = (latest?.number ?? 0) + 1;
  await tx.em.insert(RevisionRow, { shopId: tx.shopId, id: revisionId, repairOrderId, number, version: 1 });
  await tx.audit('revision.begin', 'revision', revisionId, { repairOrderId, number });
  return ok({ revisionId, repairOrderId, vehicleId, version: 1, isNew: true });
}

/** The draft that a change is based on, held. A sent revision is refused: changes go into a further one. */
export async function draftById(tx: Tx, revisionId: string, version: number | '*'): Promise<Result<Draft>> {
  const found = await tx.one<{ repairOrderId: string }>(
    `select repair_order_id as "repairOrderId" from revisions where shop_id = $1 and id = $2`,
    [tx.shopId, revisionId],
  );
  if (!found) return fail('not-found', 'There is no such revision in this shop.');
  const { repairOrderId } = found;
  const stay = await holdStay(tx, repairOrderId);
  if (!stay.ok) return stay;
  const row = await tx.one<{ version: number; sentAt: Date | null }>(
    `select version, sent_at as "sentAt" from revisions where shop_id = $1 and id = $2 for update`,
    [tx.shopId, revisionId],
  );
  if (!row) return fail('not-found', 'There is no such revision in this shop.');
  if (row.sentAt !== null)
    return fail('revision-already-sent', 'This revision was sent. Put the change into a further revision.', {
      facts: { sentAt: row.sentAt.toISOString() },
    });
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  return ok({
    revisionId,
    repairOrderId,
    vehicleId: stay.value.vehicleId,
    version: row.version,
    isNew: false,
  });
}

/** The draft in which a line is, for a change of the line. */
export async function draftOfLine(tx: Tx, lineId: string, version: number | '*'): Promise<Result<Draft>> {
  const line = await tx.one<{ revisionId: string }>(
    `select revision_id as "revisionId" from lines where shop_id = $1 and id = $2`,
    [tx.shopId, lineId],
  );
  return line
    ? draftById(tx, line.revisionId, version)
    : fail('not-found', 'There is no such line in this shop.');
}

/** Every change of a line is a change of its revision. */
export async function countChange(tx: Tx, draft: Draft): Promise<void> {
  if (!draft.isNew)
    await tx.rows(
      'update revisions set version = version + 1 where shop_id = $1 and id = $2 returning version',
      [tx.shopId, draft.revisionId],
    );
  const { revisionId, repairOrderId } = draft;
  tx.announce('revision', { revisionId, repairOrderId });
}
