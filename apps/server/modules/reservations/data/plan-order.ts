import type { PlanOperation, PlanRepairOrder } from '#libs/plan';

/** A piece of reserved work as the plan needs it. */
export interface ReservedOperation {
  readonly id: string;
  readonly title: string;
  readonly minutes: number;
  readonly minutesP80: number;
  readonly needsLift: boolean;
  readonly bayKinds: readonly string[];
  readonly skills: readonly string[];
  readonly toolIds: readonly string[];
  readonly isAfterPrevious: boolean;
}

export function planOperation(operation: ReservedOperation, previousId: string | null): PlanOperation {
  return {
    ...{ id: operation.id, minutes: operation.minutes, minutesP80: operation.minutesP80 },
    after: operation.isAfterPrevious && previousId !== null ? [previousId] : [],
    bay: { lift: operation.needsLift, liftKind: null, kinds: operation.bayKinds },
    ...{ skills: operation.skills, tools: operation.toolIds },
  };
}

/** A car that may come as one repair order of the plan. Times are minutes of the plan's horizon. */
export function planOrder(
  id: string,
  operations: readonly ReservedOperation[],
  vehicle: { readonly weightKg: number | null; readonly heightMm: number | null },
  arrives: number,
): PlanRepairOrder {
  return {
    ...{ id, arrives },
    vehicle: { weightKg: vehicle.weightKg, heightMm: vehicle.heightMm },
    operations: operations.map((one, at) => planOperation(one, operations[at - 1]?.id ?? null)),
  };
}
