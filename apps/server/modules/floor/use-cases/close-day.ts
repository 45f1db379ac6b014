import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { ClosedDayRow } from '../data/closed-day.entity.js';
import type { CloseDayRequest } from '../dto/calendar.request.js';
import type { ClosedDayResponse } from '../dto/calendar.response.js';

/** A holiday: nobody works on it. What is planned on it stays where it is until somebody or the plan moves it. */
export async function closeDay(tx: Tx, { day, name }: CloseDayRequest): Promise<Result<ClosedDayResponse>> {
  const known = await tx.em.findOneBy(ClosedDayRow, { shopId: tx.shopId, day });
  if (known)
    return fail('day-closed-already', `The shop is closed on ${day} already: ${known.name}.`, {
      fields: [{ pointer: '/day', detail: 'Choose another day, or open this one first to rename it.' }],
    });
  await tx.em.insert(ClosedDayRow, { shopId: tx.shopId, day, name });
  await tx.audit('calendar.close-day', 'shop', tx.shopId, { day, name });
  tx.announce('calendar', { day });
  return ok({ day, name });
}
