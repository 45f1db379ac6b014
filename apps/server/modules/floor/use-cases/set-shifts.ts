import { fail, type FieldFault, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { ShiftPatternRow } from '../data/shift-pattern.entity.js';
import type { SetShiftsRequest, ShiftEntry } from '../dto/technician.request.js';
import type { ShiftsResponse } from '../dto/technician.response.js';
import { lockTechnician, shiftsOf } from '../queries/technicians.query.js';

/** The weekly hours of a technician, one shift a weekday with at most one break; the list replaces the one before. */
export async function setShifts(
  tx: Tx,
  technicianId: string,
  request: SetShiftsRequest,
): Promise<Result<ShiftsResponse>> {
  const weekdays = request.shifts.map(({ weekday }) => weekday);
  const fields = request.shifts.flatMap((shift, at) => [
    ...shiftFaults(shift, `/shifts/${at}`),
    ...(weekdays.indexOf(shift.weekday) === at
      ? []
      : [{ pointer: `/shifts/${at}/weekday`, detail: 'There is one shift a weekday: join the two.' }]),
  ]);
  if (fields.length > 0) return fail('request-invalid', 'Some shifts do not work out.', { fields });
  const here = await lockTechnician(tx, technicianId);
  if (!here.ok) return here;
  const of = { shopId: tx.shopId, technicianId };
  await tx.em.delete(ShiftPatternRow, of);
  const rows = request.shifts.map((shift) => ({
    ...of,
    id: tx.newId(),
    weekday: shift.weekday,
    fromMinute: shift.fromMinute,
    toMinute: shift.toMinute,
    breakFromMinute: shift.breakFromMinute ?? null,
    breakToMinute: shift.breakToMinute ?? null,
  }));
  if (rows.length > 0) await tx.em.insert(ShiftPatternRow, rows);
  await tx.audit('technician.set-shifts', 'staff', technicianId, { shifts: request.shifts });
  tx.announce('bay', { technicianId });
  return shiftsOf(tx, technicianId);
}

function shiftFaults(shift: ShiftEntry, at: string): FieldFault[] {
  const { fromMinute, toMinute } = shift;
  const from = shift.breakFromMinute ?? null;
  const to = shift.breakToMinute ?? null;
  if (fromMinute >= toMinute) return [{ pointer: `${at}/toMinute`, detail: 'A shift ends after it begins.' }];
  if ((from === null) !== (to === null))
    return [
      {
        pointer: `${at}/${from === null ? 'breakFromMinute' : 'breakToMinute'}`,
        detail: 'A break has a beginning and an end.',
      },
    ];
  if (from === null || to === null || (fromMinute <= from && from < to && to <= toMinute)) return [];
  return [
    { pointer: `${at}/breakFromMinute`, detail: 'The break lies within the shift and ends after it begins.' },
  ];
}
