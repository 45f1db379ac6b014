import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { BayClosureRow } from '../data/bay-closure.entity.js';
import { BayRow } from '../data/bay.entity.js';
import { changedClosure, newClosure } from '../data/closure.js';
import { onlyOne } from '../data/only-one.js';
import type { ChangeClosureRequest, CloseBayRequest } from '../dto/calendar.request.js';
import type { BayClosureResponse } from '../dto/calendar.response.js';
import { bayClosuresWanted } from '../queries/calendar.query.js';

/**
 * Takes a bay out of service for a time, from now on unless said otherwise. Work that is planned in it stays where it is
 * until somebody or the plan moves it; the answer names it.
 */
export async function closeBay(
  tx: Tx,
  bayId: string,
  request: CloseBayRequest,
): Promise<Result<BayClosureResponse>> {
  const bay = await tx.em.findOne(BayRow, {
    where: { shopId: tx.shopId, id: bayId },
    lock: { mode: 'for_no_key_update' },
  });
  if (!bay) return fail('not-found', 'There is no such bay in this shop.');
  const row = await newClosure(tx, { table: 'bay_closures', bayId }, request);
  if (!row.ok) return row;
  const { id, startsAt, endsAt, reason } = row.value;
  await tx.em.insert(BayClosureRow, { ...row.value, bayId });
  await tx.audit('bay.close', 'bay', bayId, { closureId: id, startsAt, endsAt, reason });
  tx.announce('calendar', { bayId, closureId: id });
  return ok(onlyOne(await bayClosuresWanted(tx, { id })));
}

/** What is expected now, or that it is back in service. */
export async function changeBayClosure(
  tx: Tx,
  bayId: string,
  closureId: string,
  version: number | '*',
  request: ChangeClosureRequest,
): Promise<Result<BayClosureResponse>> {
  const row = await tx.em.findOne(BayClosureRow, {
    where: { shopId: tx.shopId, id: closureId, bayId },
    lock: { mode: 'pessimistic_write' },
  });
  if (!row) return fail('not-found', 'This bay has no such time out of service.');
  const changed = await changedClosure(tx, { table: 'bay_closures', bayId }, row, version, request);
  if (!changed.ok) return changed;
  await tx.em.update(BayClosureRow, { shopId: tx.shopId, id: closureId }, changed.value);
  await tx.audit('bay.change-closure', 'bay', bayId, { closureId, ...request });
  tx.announce('calendar', { bayId, closureId });
  return ok(onlyOne(await bayClosuresWanted(tx, { id: closureId })));
}
