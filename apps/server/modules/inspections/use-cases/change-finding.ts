import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { openStay } from '../../repair-orders/index.js';
import { FindingRow } from '../data/finding.entity.js';
import type { ChangeFindingRequest, RecordFindingRequest } from '../dto/finding.request.js';
import type { FindingResponse } from '../dto/finding.response.js';
import { findingById } from '../queries/findings.query.js';
import { checkFinding } from './record-finding.js';
import { refuseIfAnswered } from './refuse-if-answered.js';

/**
 * Words a finding better. What a finding of an inspection says about the part follows its observation and changes only
 * there; one that was found under way has no other place.
 */
export async function changeFinding(
  tx: Tx,
  findingId: string,
  version: number | '*',
  request: ChangeFindingRequest,
): Promise<Result<FindingResponse>> {
  const where = { shopId: tx.shopId, id: findingId };
  const row = await tx.em.findOne(FindingRow, { where, lock: { mode: 'pessimistic_write' } });
  if (!row) return fail('not-found', 'There is no such finding in this shop.');
  const current = checkVersion(version, row.version);
  if (!current.ok) return current;
  const stay = await openStay(tx, row.repairOrderId);
  if (!stay.ok) return stay;
  const given = definedOnly(request);
  const allowed = row.observationId === null ? ofItsOwn(row, given) : wordsOnly(given);
  if (!allowed.ok) return allowed;
  const { withdrawn, ...columns } = given;
  if (withdrawn === true) {
    const free = await refuseIfAnswered(tx, findingId);
    if (!free.ok) return free;
  }
  const withdrawnAt = withdrawn === undefined ? {} : { withdrawnAt: withdrawn ? tx.now : null };
  await tx.em.update(FindingRow, where, { ...columns, ...withdrawnAt, version: row.version + 1 });
  await tx.audit('finding.change', 'finding', findingId, given);
  tx.announce('finding', { findingId, repairOrderId: row.repairOrderId });
  return findingById(tx, findingId);
}

const OF_THE_OBSERVATION = ['verdict', 'mayDrive', 'lookAgainOn', 'lookAgainOdometer', 'withdrawn'] as const;

function wordsOnly(given: Partial<ChangeFindingRequest>): Result<void> {
  const fields = OF_THE_OBSERVATION.filter((field) => given[field] !== undefined).map((field) => ({
    pointer: `/${field}`,
    detail: 'Change the observation instead; the finding follows it.',
  }));
  if (fields.length === 0) return ok(undefined);
  return fail('request-invalid', 'This finding comes from an inspection and says what was observed.', {
    fields,
  });
}

function ofItsOwn(row: FindingRow, given: Partial<ChangeFindingRequest>): Result<void> {
  return checkFinding({
    verdict: (given.verdict ?? row.verdict) as RecordFindingRequest['verdict'],
    mayDrive: (given.mayDrive ?? row.mayDrive) as RecordFindingRequest['mayDrive'],
    lookAgainOn: given.lookAgainOn === undefined ? row.lookAgainOn : given.lookAgainOn,
    lookAgainOdometer:
      given.lookAgainOdometer === undefined ? row.lookAgainOdometer : given.lookAgainOdometer,
  });
}
