import { fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';
import { WORK_ORDER_MOVES } from './work-order-moves.js';
import type { WorkOrderEvent, WorkOrderState } from './work-order-moves.js';

/** The state after an event, or the reason why it cannot happen now, with what can happen instead. */
export function move(
  state: WorkOrderState,
  event: WorkOrderEvent,
): Result<WorkOrderState, Fault<'move-not-allowed'>> {
  const next = WORK_ORDER_MOVES[state][event];
  if (next !== undefined) return ok(next);
  const possible = Object.keys(WORK_ORDER_MOVES[state]);
  const instead =
    possible.length === 0 ? 'Nothing more happens to it.' : `Possible now: ${possible.join(', ')}.`;
  return fail('move-not-allowed', `"${event}" is not possible while the work order is ${state}. ${instead}`, {
    facts: { state, event, possible },
  });
}
