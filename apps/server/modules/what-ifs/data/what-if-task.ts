import type { Tx } from '../../../platform/database/tx.js';

export const WHAT_IF_TASK = 'what-if';
/** A process that stops in the middle of a question costs a run of its job. */
const MOST_RUNS = 5;

/** Queues a question, one of a shop after the other. */
export function enqueueWhatIf(tx: Tx, whatIfId: string, inMs = 0): void {
  tx.enqueue(
    WHAT_IF_TASK,
    { whatIfId },
    {
      ...{ key: whatIfId, queue: WHAT_IF_TASK, maxAttempts: MOST_RUNS },
      ...(inMs === 0 ? {} : { runAt: new Date(tx.wall.getTime() + inMs) }),
    },
  );
}
