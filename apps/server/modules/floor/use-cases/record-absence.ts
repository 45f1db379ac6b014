import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { AbsenceRow } from '../data/absence.entity.js';
import { onlyOne } from '../data/only-one.js';
import { checkPeriod } from '../data/period.js';
import type { RecordAbsenceRequest } from '../dto/calendar.request.js';
import type { AbsenceResponse } from '../dto/calendar.response.js';
import { absencesWanted } from '../queries/calendar.query.js';
import { lockTechnician } from '../queries/technicians.query.js';

/** Somebody is not there to work. Nothing moves by itself: the answer names what is planned for them in that time. */
export async function recordAbsence(
  tx: Tx,
  technicianId: string,
  request: RecordAbsenceRequest,
): Promise<Result<AbsenceResponse>> {
  const [startsAt, endsAt] = [new Date(request.startsAt), new Date(request.endsAt)];
  const period = checkPeriod(startsAt, endsAt);
  if (!period.ok) return period;
  const here = await lockTechnician(tx, technicianId);
  if (!here.ok) return here;
  const free = await notAwayYet(tx, technicianId, { startsAt, endsAt }, null);
  if (!free.ok) return free;
  const id = tx.newId();
  const row = { startsAt, endsAt, reason: request.reason ?? null };
  await tx.em.insert(AbsenceRow, {
    shopId: tx.shopId,
    id,
    technicianId,
    ...row,
    recordedBy: tx.staffId,
    recordedAt: tx.now,
    withdrawnAt: null,
    version: 1,
  });
  await tx.audit('absence.record', 'absence', id, { technicianId, ...row });
  tx.announce('calendar', { technicianId, absenceId: id });
  return ok(onlyOne(await absencesWanted(tx, { id })));
}

/** One absence at a time: two that overlap would leave open which of them counts when one is withdrawn. */
export async function notAwayYet(
  tx: Tx,
  technicianId: string,
  { startsAt, endsAt }: { readonly startsAt: Date; readonly endsAt: Date },
  exceptId: string | null,
): Promise<Result<void>> {
  const other = await tx.one<{ id: string; startsAt: Date; endsAt: Date }>(
    `select id, starts_at as "startsAt", ends_at as "endsAt" from absences
      where shop_id = $1 and technician_id = $2 and withdrawn_at is null and id is distinct from $5
        and tstzrange(starts_at, ends_at) && tstzrange($3, $4) order by starts_at limit 1`,
    [tx.shopId, technicianId, startsAt, endsAt, exceptId],
  );
  if (!other) return ok(undefined);
  return fail('away-already', 'They are away in that time already. Change or withdraw that absence first.', {
    facts: {
      absence: {
        id: other.id,
        startsAt: other.startsAt.toISOString(),
        endsAt: other.endsAt.toISOString(),
      },
    },
  });
}
