import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { endEntry, lockTechnician, notOn, type EndKind } from '../data/clock.js';
import type { ClockActResponse } from '../dto/clock.response.js';
import { clockAct } from '../queries/clock-act.query.js';
import { openEntryOf } from '../queries/clock-entries.query.js';

/** The signed-in person stops; a pause says why. */
export async function clockOff(
  tx: Tx,
  how: Exclude<EndKind, 'switch'>,
  reason: string | null,
): Promise<Result<ClockActResponse>> {
  await lockTechnician(tx, tx.staffId);
  const running = await openEntryOf(tx, tx.staffId);
  if (!running) return notOn();
  const at = await endEntry(tx, running, how, reason);
  return at ? ok(await clockAct(tx, running.id)) : notOn();
}
