import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { ClosedDayRow } from '../data/closed-day.entity.js';

/** Takes a closed day back: the weekly shifts hold on it again. */
export async function openDay(tx: Tx, day: string): Promise<Result<void>> {
  const gone = await tx.em.delete(ClosedDayRow, { shopId: tx.shopId, day });
  if (gone.affected !== 1) return fail('not-found', 'The shop is not closed on that day.');
  await tx.audit('calendar.open-day', 'shop', tx.shopId, { day });
  tx.announce('calendar', { day });
  return ok(undefined);
}
