import type { WorkOrderState } from './work-order-moves.js';

/** The facts that are stored about a work order, boiled down to claims about now. */
export interface WorkOrderFacts {
  readonly withdrawn: boolean;
  /** Somebody holds it. */
  readonly claimed: boolean;
  /** The one who holds it has a clock entry on it, open or closed, since they claimed it. */
  readonly clockedSinceClaim: boolean;
  /** A clock entry on it is open. */
  readonly onTheClock: boolean;
  /** It was reported finished and has not been sent back since. */
  readonly finished: boolean;
  readonly checked: boolean;
}

/**
 * Where a work order stands: the first that holds of withdrawn, checked, finished, on the clock, paused, claimed,
 * released. An end outranks what came before it, so that a late clock entry cannot bring a checked order back.
 */
export function workOrderState(facts: WorkOrderFacts): WorkOrderState {
  if (facts.withdrawn) return 'withdrawn';
  if (facts.checked) return 'checked';
  if (facts.finished) return 'finished';
  if (facts.onTheClock) return 'on-the-clock';
  if (!facts.claimed) return 'released';
  return facts.clockedSinceClaim ? 'paused' : 'claimed';
}
