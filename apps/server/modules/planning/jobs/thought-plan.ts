import { USUAL_WEIGHTS, type PlanAssignment, type PlanChange, type PlanCost } from '#libs/plan';
import { foundIn, nowhere, type FoundPlan } from '../data/found-plan.js';
import { isElsewhere, isWork, runChanges } from '../data/run-changes.js';
import type { PlanChangeResponse } from '../dto/plan-run.response.js';
import type { ShopPlan } from '../loading/shop-plan.js';
import type { SeenPlan } from './seen-plan.js';

/** What came of thinking about it. */
export interface ThoughtPlan {
  readonly assignments: readonly PlanAssignment[];
  readonly found: FoundPlan;
  /** Everything that is different, and whether any of it is worth asking somebody about. */
  readonly changes: readonly PlanChangeResponse[];
  readonly isElsewhere: boolean;
  readonly cost: PlanCost;
  readonly latenessBound: number | null;
  readonly solveMs: number;
}

export interface Answered {
  readonly assignments: readonly PlanAssignment[];
  readonly changes: readonly PlanChange[];
  readonly cost: PlanCost;
  readonly latenessBound: number;
}

export function thought(shop: ShopPlan, answer: Answered, solveMs: number): ThoughtPlan {
  const found = foundIn(shop, answer.assignments);
  const changes = runChanges(shop, found, answer.changes);
  const { assignments, cost, latenessBound } = answer;
  return {
    ...{ assignments, found, changes, cost, latenessBound, solveMs },
    isElsewhere: changes.some(isElsewhere),
  };
}

/** The stored plan as it stands, where nobody wants another. */
export const unthought = ({ shop, kept, costBefore }: SeenPlan): ThoughtPlan => ({
  ...{
    assignments: kept,
    changes: [],
    isElsewhere: false,
    cost: costBefore,
    latenessBound: null,
    solveMs: 0,
  },
  found: { origin: shop.horizon.origin.toISOString(), places: [], takenOut: [] },
});

/** What is done with it. */
export type Way = 'leave' | 'propose' | 'apply';

/**
 * As the shop has it; what somebody looked longer for is always a proposal, and so is what would take away a place that a
 * person laid down.
 */
export function wayOf({ shop, asked, improve }: SeenPlan, { found }: ThoughtPlan): Way {
  if (shop.mode === 'by-hand' && asked === null) return 'leave';
  const onTheClock = new Set(nowhere(shop));
  const takesPin = found.takenOut.some(
    (id) => !onTheClock.has(id) && shop.assignmentOf.get(id)?.isPinned === true,
  );
  return shop.mode === 'apply' && !improve && !takesPin ? 'apply' : 'propose';
}

/** Whether the one is worse than the other, in the order in which the planner weighs the parts. */
export function isWorse(shop: ShopPlan, one: PlanCost, other: PlanCost): boolean {
  const weight = shop.problem.weights?.lateness ?? USUAL_WEIGHTS.lateness;
  const parts = ({ unplaced, frozenMoved, lateness, change }: PlanCost): number[] => [
    unplaced,
    frozenMoved,
    lateness * weight + change,
  ];
  const [a, b] = [parts(one), parts(other)];
  const at = a.findIndex((part, k) => part !== b[k]);
  return at >= 0 && (a[at] ?? 0) > (b[at] ?? 0);
}

/** Whether two findings put the same work into the same places. */
export function isSameFound(shop: ShopPlan, one: FoundPlan, other: FoundPlan): boolean {
  return signatureOf(shop, one) === signatureOf(shop, other);
}

function signatureOf(shop: ShopPlan, { origin, places, takenOut }: FoundPlan): string {
  const from = Date.parse(origin) / 60_000;
  const shown = places
    .filter(({ operation }) => isWork(shop, operation))
    .map(({ operation, start, bay, technicians }) =>
      [operation, from + start, bay, ...technicians].join(' '),
    );
  return JSON.stringify([shown.sort(), [...takenOut].sort()]);
}
