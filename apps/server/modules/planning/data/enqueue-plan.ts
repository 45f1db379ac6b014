import type { Tx } from '../../../platform/database/tx.js';
import type { LookPayload } from './look.js';

export const PLAN_TASK = 'plan';
export const PLAN_LOOK_TASK = 'plan-look';
export const PLAN_IMPROVE_TASK = 'plan-improve';
/** Jobs of one queue run one after the other, over all processes: never two runs of one shop at a time. */
export const PLAN_QUEUE = 'plan';

/** The floor has come to rest; a longer look is then worth its while. */
const IMPROVE_AFTER_MS = 5_000;

/** What a job of the plan carries; what happened is read from the shop's events. */
export interface PlanPayload {
  /** How often in a row a run came too late with what it had found. */
  readonly late?: number;
  /** A time that passed and that such a run was to look into. */
  readonly look?: LookPayload;
}

/**
 * At once, or after `delayMs` of the wall's time; what asks meanwhile comes into the same run. While a run is under way
 * everything that happens waits together for the next one, so that many events become few runs and the first is not kept
 * waiting: runners are told of what may begin at once, and look for what begins later only every other second.
 */
export function enqueuePlan(tx: Tx, delayMs = 0, payload: PlanPayload = {}): void {
  tx.enqueue(PLAN_TASK, payload, {
    ...{ key: PLAN_TASK, queue: PLAN_QUEUE, mode: 'preserve_run_at' },
    ...(delayMs === 0 ? {} : { runAt: new Date(tx.wall.getTime() + delayMs) }),
  });
}

/** One longer look in the background; another change puts it off. */
export function enqueueImprove(tx: Tx): void {
  tx.enqueue(
    PLAN_IMPROVE_TASK,
    {},
    {
      ...{ key: PLAN_IMPROVE_TASK, queue: PLAN_QUEUE, mode: 'replace', maxAttempts: 1 },
      runAt: new Date(tx.wall.getTime() + IMPROVE_AFTER_MS),
    },
  );
}
