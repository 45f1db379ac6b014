import { fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';
import type { Answer } from './decision.js';

export interface DecideInput {
  /** The latest answer for this line, or null when there is none yet. */
  readonly current: Answer | null;
  readonly incoming: Answer;
  /** Whether anybody has clocked on to the line's work order. */
  readonly workBegun: boolean;
  /**
   * True when the answer is the same but the owner was shown another total for it, because the rest of the choice
   * changed: a line that shared its dismantling with one that is now declined carries all of it. Default false.
   */
  readonly figureChanged?: boolean;
}

export type DecideOutcome = 'repeat' | 'record';

/**
 * What to do with an answer that comes in: `record` it as a new decision, or answer as a harmless `repeat` with what
 * is recorded already (the page was sent twice, the owner pressed again). A changed mind is a new decision until work
 * on the line has begun; from then on it is refused, because the car is apart and hours are on the clock.
 *
 * A yes shown with another figure is agreed anew before work begins; after that the figure agreed on stands.
 * The conditional write in the database decides between two that arrive at once.
 */
export function decide({
  current,
  incoming,
  workBegun,
  figureChanged = false,
}: DecideInput): Result<DecideOutcome, Fault<'work-already-begun'>> {
  if (current === null) return ok('record');
  if (current === incoming) return ok(figureChanged && !workBegun ? 'record' : 'repeat');
  if (!workBegun) return ok('record');
  return fail(
    'work-already-begun',
    `Work on this line has begun, so the answer "${current}" can no longer be changed here. Please call the shop.`,
    { facts: { current, incoming } },
  );
}
