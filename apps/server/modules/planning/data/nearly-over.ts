import type { PlanAssignment, PlanOperation, PlanPlace } from '#libs/plan';
import type { ShopPlan } from '../loading/shop-plan.js';
import { composed, GRACE_MINUTES, type FoundPlan } from './found-plan.js';

/**
 * The floor as it is now, but work on the clock ends where the proposal has the next work begin, if that is only little
 * before its expected end. Work past its book hours is expected to end so long from now, whenever now is: by the minute,
 * a proposal could be accepted only in the one in which it was made.
 */
export function withWorkNearlyOver(shop: ShopPlan, found: FoundPlan): ShopPlan {
  const proposed = new Set(found.places.map(({ operation }) => operation));
  const operations = new Map(
    shop.problem.repairOrders.flatMap((order) => order.operations.map((one) => [one.id, one] as const)),
  );
  const places = composed(shop, found).filter(({ operation }) => proposed.has(operation));
  const cut = (one: PlanOperation): PlanOperation => {
    if (one.started == null) return one;
    const { started, id } = one;
    const next = places
      .filter((place) => isNext(id, started, place, operations.get(place.operation)))
      .reduce((soonest, { start }) => Math.min(soonest, start), started.end);
    return { ...one, started: { ...started, end: next } };
  };
  const repairOrders = shop.problem.repairOrders.map((order) => ({
    ...order,
    operations: order.operations.map(cut),
  }));
  return { ...shop, problem: { ...shop.problem, repairOrders } };
}

function isNext(
  id: string,
  started: PlanPlace,
  place: PlanAssignment,
  operation: PlanOperation | undefined,
): boolean {
  const isNear =
    place.start > started.start && place.start < started.end && place.start >= started.end - GRACE_MINUTES;
  return (
    isNear &&
    ((operation?.after ?? []).includes(id) ||
      (place.bay !== null && place.bay === started.bay) ||
      place.technicians.some((one) => started.technicians.includes(one)) ||
      place.tools.some((one) => started.tools.includes(one)))
  );
}
