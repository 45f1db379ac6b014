import { ok, type Result } from '#libs/kernel';
import { findingOf } from '#libs/inspection';
import type { Tx } from '../../../platform/database/tx.js';
import { titleOf, type StoredCheckpoint } from '../data/checkpoint.mapping.js';
import { FindingRow } from '../data/finding.entity.js';
import { observationOf, type ObservationDraft } from '../data/observation-draft.js';
import type { ObservationRow } from '../data/observation.entity.js';
import type { LockedInspection } from '../queries/lock-inspection.query.js';
import { refuseIfAnswered } from './refuse-if-answered.js';

interface Change {
  readonly inspection: LockedInspection;
  readonly checkpoint: StoredCheckpoint;
  readonly observationId: string;
  readonly before: ObservationRow | null;
  readonly draft: ObservationDraft;
}

/**
 * Keeps the finding in step with its observation, in the same transaction. What the technician changed goes over to it;
 * what the front desk has worded since stays where the technician changed nothing.
 */
export async function followFinding(tx: Tx, change: Change): Promise<Result<void>> {
  const { checkpoint, draft, observationId } = change;
  const wanted = findingOf(observationOf(draft, checkpoint.id));
  const row = await tx.em.findOne(FindingRow, {
    where: { shopId: tx.shopId, observationId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!wanted) return row && !row.withdrawnAt ? withdraw(tx, row) : ok(undefined);
  const facts = {
    verdict: wanted.verdict,
    mayDrive: wanted.mayDrive,
    lookAgainOn: wanted.lookAgainOn,
    lookAgainOdometer: wanted.lookAgainOdometer,
  };
  if (row) await tell(tx, row, change, facts);
  else await raise(tx, change, facts);
  return ok(undefined);
}

type Facts = Pick<FindingRow, 'verdict' | 'mayDrive' | 'lookAgainOn' | 'lookAgainOdometer'>;

async function raise(tx: Tx, change: Change, facts: Facts): Promise<void> {
  const { inspection, checkpoint, draft, observationId } = change;
  const row: FindingRow = {
    ...facts,
    shopId: tx.shopId,
    id: tx.newId(),
    repairOrderId: inspection.repairOrderId,
    vehicleId: inspection.vehicleId,
    observationId,
    workOrderId: null,
    title: draft.title ?? titleOf(checkpoint),
    explanation: draft.note,
    consequence: draft.consequence,
    stake: null,
    foundBy: tx.staffId,
    foundAt: tx.now,
    withdrawnAt: null,
    version: 1,
  };
  await tx.em.insert(FindingRow, row);
  announce(tx, row);
}

async function tell(tx: Tx, row: FindingRow, change: Change, facts: Facts): Promise<void> {
  const { checkpoint, draft, before } = change;
  const title = draft.title ?? titleOf(checkpoint);
  await tx.em.update(
    FindingRow,
    { shopId: tx.shopId, id: row.id },
    {
      ...facts,
      title: draft.title === before?.title ? row.title : title,
      explanation: draft.note === before?.note ? row.explanation : draft.note,
      consequence: draft.consequence === before?.consequence ? row.consequence : draft.consequence,
      withdrawnAt: null,
      version: row.version + 1,
    },
  );
  announce(tx, row);
}

async function withdraw(tx: Tx, row: FindingRow): Promise<Result<void>> {
  const free = await refuseIfAnswered(tx, row.id);
  if (!free.ok) return free;
  await tx.em.update(
    FindingRow,
    { shopId: tx.shopId, id: row.id },
    { withdrawnAt: tx.now, version: row.version + 1 },
  );
  await tx.audit('finding.withdraw', 'finding', row.id, { title: row.title });
  announce(tx, row);
  return ok(undefined);
}

function announce(tx: Tx, row: FindingRow): void {
  tx.announce('finding', { findingId: row.id, repairOrderId: row.repairOrderId });
}
