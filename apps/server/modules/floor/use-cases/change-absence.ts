import { fail, ok, type Result } from '#libs/kernel';
import { definedOnly } from '../../../platform/database/defined-only.js';
import type { Tx } from '../../../platform/database/tx.js';
import { checkVersion } from '../../../platform/http/versions.js';
import { AbsenceRow } from '../data/absence.entity.js';
import { onlyOne } from '../data/only-one.js';
import { checkPeriod } from '../data/period.js';
import type { ChangeAbsenceRequest } from '../dto/calendar.request.js';
import type { AbsenceResponse } from '../dto/calendar.response.js';
import { absencesWanted } from '../queries/calendar.query.js';
import { notAwayYet } from './record-absence.js';

const MISSING = 'There is no such absence of this technician.';

/** Longer, shorter or another reason. */
export async function changeAbsence(
  tx: Tx,
  technicianId: string,
  absenceId: string,
  version: number | '*',
  request: ChangeAbsenceRequest,
): Promise<Result<AbsenceResponse>> {
  const held = await holdAbsence(tx, technicianId, absenceId, version);
  if (!held.ok) return held;
  const row = held.value;
  const endsAt = request.endsAt === undefined ? row.endsAt : new Date(request.endsAt);
  const period = checkPeriod(row.startsAt, endsAt);
  if (!period.ok) return period;
  const free = await notAwayYet(tx, technicianId, { startsAt: row.startsAt, endsAt }, absenceId);
  if (!free.ok) return free;
  const changed = { ...definedOnly({ reason: request.reason }), endsAt, version: row.version + 1 };
  await tx.em.update(AbsenceRow, { shopId: tx.shopId, id: absenceId }, changed);
  await tx.audit('absence.change', 'absence', absenceId, definedOnly(request));
  tx.announce('calendar', { technicianId, absenceId });
  return ok(onlyOne(await absencesWanted(tx, { id: absenceId })));
}

/** It was recorded by mistake, or they come after all. */
export async function withdrawAbsence(
  tx: Tx,
  technicianId: string,
  absenceId: string,
  version: number | '*',
): Promise<Result<void>> {
  const held = await holdAbsence(tx, technicianId, absenceId, version);
  if (!held.ok) return held;
  const changed = { withdrawnAt: tx.now, version: held.value.version + 1 };
  await tx.em.update(AbsenceRow, { shopId: tx.shopId, id: absenceId }, changed);
  await tx.audit('absence.withdraw', 'absence', absenceId, { technicianId });
  tx.announce('calendar', { technicianId, absenceId });
  return ok(undefined);
}

async function holdAbsence(
  tx: Tx,
  technicianId: string,
  absenceId: string,
  version: number | '*',
): Promise<Result<AbsenceRow>> {
  const row = await tx.em.findOne(AbsenceRow, {
    where: { shopId: tx.shopId, id: absenceId, technicianId },
    lock: { mode: 'pessimistic_write' },
  });
  if (row?.withdrawnAt !== null) return fail('not-found', MISSING);
  const current = checkVersion(version, row.version);
  return current.ok ? ok(row) : current;
}
