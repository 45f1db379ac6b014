import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { alreadyOn, beginEntry, lockTechnician, nextStart } from '../data/clock.js';
import type { IndirectKind } from '../dto/clock.request.js';
import type { ClockActResponse } from '../dto/clock.response.js';
import { clockAct } from '../queries/clock-act.query.js';
import { openEntryOf } from '../queries/clock-entries.query.js';

/** Time in the shop that no owner pays for: cleaning, training, waiting and the like. */
export async function clockIndirect(tx: Tx, kind: IndirectKind): Promise<Result<ClockActResponse>> {
  await lockTechnician(tx, tx.staffId);
  const running = await openEntryOf(tx, tx.staffId);
  if (running) return alreadyOn(running);
  const id = await beginEntry(tx, { indirectKind: kind }, await nextStart(tx, tx.staffId));
  return ok(await clockAct(tx, id));
}
