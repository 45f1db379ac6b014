import { DateTime } from 'luxon';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { mayManage, timeZoneOf } from '../../work-orders/index.js';
import type { EntriesQuery } from '../dto/clock.request.js';

/** Whose entries are asked for (null: everybody's) and in which time. */
export interface Whose {
  readonly technicianId: string | null;
  readonly from: Date | null;
  readonly to: Date | null;
}

/** Everybody sees their own time; somebody else's, or all of it, is a manager's. */
export async function whoseEntries(tx: Tx, query: EntriesQuery): Promise<Result<Whose>> {
  const asked = query.technicianId?.toLowerCase();
  if (!mayManage(tx) && asked !== undefined && asked !== tx.staffId)
    return fail('not-allowed', 'Only a manager sees the time of other people.');
  const zone = await timeZoneOf(tx);
  const dayStart = (day: string, plus: number): Date =>
    DateTime.fromISO(day, { zone }).plus({ days: plus }).startOf('day').toJSDate();
  const days = [query.from, query.to];
  const bad = days.findIndex((day) => day !== undefined && !DateTime.fromISO(day).isValid);
  if (bad >= 0) return noSuchDay(bad === 0 ? '/from' : '/to');
  return ok({
    technicianId: asked ?? (mayManage(tx) ? null : tx.staffId),
    from: query.from === undefined ? null : dayStart(query.from, 0),
    to: query.to === undefined ? null : dayStart(query.to, 1),
  });
}

const noSuchDay = (pointer: string) =>
  fail('request-invalid', 'There is no such day.', {
    fields: [{ pointer, detail: 'Give a day that exists, such as 2026-03-14.' }],
  });
