import type { PlanAssignment } from '#libs/plan';
import type { PlanPromiseResponse, PlanPromisesResponse } from '../dto/plan-run.response.js';
import type { ShopPlan } from '../loading/shop-plan.js';

export interface PromisesOfPlan {
  readonly all: readonly PlanPromiseResponse[];
  /** Those that do not hold. */
  readonly late: readonly PlanPromiseResponse[];
}

/** How the promises of the open repair orders fare by a plan. Work without a place has no end, so its car is never ready. */
export function promisesBy(shop: ShopPlan, assignments: readonly PlanAssignment[]): PromisesOfPlan {
  const at = new Map(assignments.map((place) => [place.operation, place]));
  const labels = new Map([...shop.workOrders.values()].map((work) => [work.repairOrderId, work]));
  const all = shop.problem.repairOrders.flatMap(({ id, promised, operations }): PlanPromiseResponse[] => {
    const label = labels.get(id);
    if (promised == null || label?.promisedAt == null) return [];
    const ends = operations.map((operation) => at.get(operation.id)?.end ?? Infinity);
    const ready = Math.max(...ends);
    return [
      {
        repairOrderId: id,
        repairOrderNumber: label.repairOrderNumber,
        vehicleLabel: label.vehicleLabel,
        promisedAt: label.promisedAt.toISOString(),
        readyAt: ready === Infinity ? null : shop.horizon.instantOf(ready).toISOString(),
        minutesLate: ready === Infinity ? 0 : Math.max(0, ready - promised),
      },
    ];
  });
  return { all, late: all.filter(({ readyAt, minutesLate }) => readyAt === null || minutesLate > 0) };
}

/** What has turned since the run before, whose late promises these are. */
export function turnedSince(
  before: readonly PlanPromiseResponse[],
  { all, late }: PromisesOfPlan,
): PlanPromisesResponse {
  const wasLate = new Set(before.map(({ repairOrderId }) => repairOrderId));
  const isLate = new Set(late.map(({ repairOrderId }) => repairOrderId));
  return {
    broken: late.filter(({ repairOrderId }) => !wasLate.has(repairOrderId)),
    kept: all.filter(({ repairOrderId }) => wasLate.has(repairOrderId) && !isLate.has(repairOrderId)),
  };
}
