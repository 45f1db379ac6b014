import { DateTime } from 'luxon';
import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { timeZoneOf } from '../../work-orders/index.js';
import type { ReviewQuery } from '../dto/review.request.js';

/** Half-open, from the first midnight to the one after the last day. */
export interface Period {
  readonly start: Date;
  readonly end: Date;
}

const LONGEST_DAYS = 366;

export async function periodOf(tx: Tx, { from, to }: ReviewQuery): Promise<Result<Period>> {
  const zone = await timeZoneOf(tx);
  const first = DateTime.fromISO(from, { zone }).startOf('day');
  const last = DateTime.fromISO(to, { zone }).startOf('day');
  if (!first.isValid) return wrong('/from', 'Give a day that exists, such as 2026-03-14.');
  if (!last.isValid) return wrong('/to', 'Give a day that exists, such as 2026-03-14.');
  if (last < first) return wrong('/to', 'The last day must not lie before the first.');
  if (last.diff(first, 'days').days >= LONGEST_DAYS) return wrong('/to', `At most ${LONGEST_DAYS} days.`);
  return ok({ start: first.toJSDate(), end: last.plus({ days: 1 }).startOf('day').toJSDate() });
}

const wrong = (pointer: string, detail: string) =>
  fail('request-invalid', detail, { fields: [{ pointer, detail }] });
