import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';

/** Longer than any shift: a wrong date, not a long day. */
const LONGEST_HOURS = 24;

/** Whether a recorded time may end then: after its start, not in the future, not a day later. */
export function checkEnd(tx: Tx, startedAt: Date, endedAt: Date, pointer: string): Result<void> {
  const wrong = (detail: string) => fail('period-not-valid', detail, { fields: [{ pointer, detail }] });
  if (endedAt.getTime() <= startedAt.getTime())
    return wrong(`The end must be later than the start (${startedAt.toISOString()}).`);
  if (endedAt > tx.now) return wrong('The end lies in the future. Give the time at which it really ended.');
  if (endedAt.getTime() - startedAt.getTime() > LONGEST_HOURS * 3_600_000)
    return wrong(`At most ${LONGEST_HOURS} hours in one entry.`);
  return ok(undefined);
}
