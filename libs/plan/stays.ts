import type { PlanAssignment, PlanProblem } from './plan-problem.js';

/** A vehicle in a bay, a whole teardown with its waiting. */
export interface BayStay {
  readonly bay: string;
  readonly order: string;
  readonly from: number;
  readonly to: number;
  /** The operation that ends it. */
  readonly last: string;
}

/** Who stands where in a plan. */
export function baysTaken(problem: PlanProblem, assignments: readonly PlanAssignment[]): BayStay[] {
  const at = new Map(assignments.map((one) => [one.operation, one]));
  return problem.repairOrders.flatMap((order) => {
    const stays = new Map<string, BayStay>();
    for (const { id, teardown } of order.operations) {
      const own = at.get(id);
      if (own === undefined || own.bay === null) continue;
      const key = teardown == null ? `one ${id}` : `all ${teardown}`;
      const known = stays.get(key);
      stays.set(key, {
        ...{ bay: own.bay, order: order.id },
        from: Math.min(own.start, known?.from ?? own.start),
        to: Math.max(own.end, known?.to ?? own.end),
        last: known !== undefined && known.to > own.end ? known.last : id,
      });
    }
    return [...stays.values()];
  });
}
