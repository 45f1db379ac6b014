import type { WorkOrderState } from './work-order-moves.js';

/** Where a repair order stands; always derived, never stored. */
export const STAGES = [
  'dropped-off',
  'inspecting',
  'estimating',
  'awaiting-decision',
  'on-the-floor',
  'checking',
  'ready',
  'picked-up',
] as const;
export type Stage = (typeof STAGES)[number];

export interface RepairOrderFacts {
  /** The furthest of its inspections that is not complete decides: `started` while any is open. */
  readonly inspection: 'none' | 'started' | 'completed';
  /** Findings that no line answers and that nobody has set aside. */
  readonly openFindings: number;
  /** Lines that are written and not yet sent to the owner. */
  readonly unsentLines: number;
  /** Lines sent in a revision that have no answer yet. */
  readonly undecidedLines: number;
  /** Lines with an answer, whatever it is. */
  readonly decidedLines: number;
  readonly workOrders: readonly WorkOrderState[];
  readonly pickedUp: boolean;
}

const ON_THE_FLOOR: readonly WorkOrderState[] = ['released', 'claimed', 'on-the-clock', 'paused'];

/**
 * The stage of a repair order: the first of these that holds.
 *
 * 1. picked-up: the vehicle has left.
 * 2. on-the-floor: any work order is still to be done. It outranks an open question to the owner, because there is
 *    agreed work that somebody can do or is doing meanwhile.
 * 3. awaiting-decision: the owner has a line to answer.
 * 4. inspecting: an inspection is under way.
 * 5. estimating: a line is written but not sent, or a complete inspection left findings that nothing answers.
 * 6. checking: work is finished and not checked. The questions above come first: their answer may reopen the car.
 * 7. ready: nothing is left to do: the inspection is complete, or all lines have been answered and all work is checked.
 *    A car whose owner declined everything is ready too.
 * 8. dropped-off: nothing has happened yet.
 *
 * Withdrawn work orders count as if they had never been released.
 */
export function stageOf(facts: RepairOrderFacts): Stage {
  const { inspection, workOrders } = facts;
  if (facts.pickedUp) return 'picked-up';
  if (workOrders.some((state) => ON_THE_FLOOR.includes(state))) return 'on-the-floor';
  if (facts.undecidedLines > 0) return 'awaiting-decision';
  if (inspection === 'started') return 'inspecting';
  if (facts.unsentLines > 0 || (inspection === 'completed' && facts.openFindings > 0)) return 'estimating';
  if (workOrders.includes('finished')) return 'checking';
  if (inspection === 'completed' || facts.decidedLines > 0 || workOrders.includes('checked')) return 'ready';
  return 'dropped-off';
}
