import type { BayNeed, PlanBay, PlanRepairOrder } from './plan-problem.js';

/**
 * Whether a vehicle may stand in a bay for this need at all. Never on a lift below its weight, nor on one when nobody
 * knows its weight; an unknown height is let in, as the desk has no way to know.
 */
export function bayTakes(bay: PlanBay, need: BayNeed, vehicle: PlanRepairOrder['vehicle']): boolean {
  const kinds = need.kinds ?? [];
  if (kinds.length > 0 && !kinds.includes(bay.kind ?? '')) return false;
  const [height, limit] = [vehicle?.heightMm ?? null, bay.maxHeightMm ?? null];
  if (height !== null && limit !== null && height > limit) return false;
  if (need.lift !== true) return true;
  const lift = bay.lift ?? null;
  const weight = vehicle?.weightKg ?? null;
  if (lift === null || weight === null || weight > lift.capacityKg) return false;
  return (need.liftKind ?? null) === null || need.liftKind === lift.kind;
}
