import type { PlanAssignment, PlanChange } from '#libs/plan';
import type { PlanChangeResponse, PlanRunPlaceResponse } from '../dto/plan-run.response.js';
import { withNames } from '../loading/names.js';
import type { ShopPlan } from '../loading/shop-plan.js';
import { nowhere, type FoundPlan } from './found-plan.js';

/**
 * What people are told of a plan: work that is elsewhere than it was, with the reason; what only ends at another time, since
 * more or less of it is left; and the places of work that cannot be planned any more.
 */
export function runChanges(
  shop: ShopPlan,
  found: FoundPlan,
  changes: readonly PlanChange[],
): PlanChangeResponse[] {
  const previous = new Map((shop.problem.previous ?? []).map((was) => [was.operation, was]));
  const told = changes.filter(({ operation }) => isWork(shop, operation)).map((one) => told1(shop, one));
  const known = new Set(changes.map(({ operation }) => operation));
  const longer = found.places.flatMap((is) => {
    const was = previous.get(is.operation);
    if (known.has(is.operation) || was === undefined || !isWork(shop, is.operation)) return [];
    const why =
      was.end === is.end ? 'Another unit of its tool is free.' : 'It is expected to take another time.';
    return [told1(shop, { ...SAME, operation: is.operation, was, is, why })];
  });
  const givenUp = shop.notPlannable.flatMap(({ workOrderId, why }) =>
    found.takenOut.includes(workOrderId) ? [givenUpPlace(shop, workOrderId, why)] : [],
  );
  const lost = nowhere(shop)
    .filter((id) => found.takenOut.includes(id))
    .map((id) => givenUpPlace(shop, id, NOWHERE));
  return [...told, ...longer, ...givenUp, ...lost];
}

const NOWHERE =
  'It is on the clock, and another vehicle is in its bay. Say where it stands by giving it a place.';
const SAME = {
  ...{ kind: 'changed' as const, minutesLater: 0, by: null },
  ...{ technicianChanged: false, bayChanged: false },
};

/** Whether a change is more than another end: only then is anybody asked about it. */
export const isElsewhere = ({
  kind,
  minutesLater,
  technicianChanged,
  bayChanged,
}: PlanChangeResponse): boolean =>
  kind !== 'changed' || minutesLater !== 0 || technicianChanged || bayChanged;

export const isWork = (shop: ShopPlan, operation: string): boolean =>
  shop.workOrders.has(operation) || shop.assignmentOf.has(operation);

function told1(shop: ShopPlan, change: PlanChange): PlanChangeResponse {
  const { kind, operation, was, is, minutesLater, technicianChanged, bayChanged, why } = change;
  return {
    kind,
    ...labelOf(shop, operation),
    was: was && placeOf(shop, was),
    is: is && placeOf(shop, is),
    ...{ minutesLater, technicianChanged, bayChanged },
    why: withNames(why, shop.names),
  };
}

function labelOf(shop: ShopPlan, operation: string) {
  const work = shop.workOrders.get(operation);
  return {
    workOrderId: work?.id ?? null,
    workOrderNumber: work?.number ?? null,
    title: work?.title ?? shop.names.get(operation) ?? 'Reserved work',
    repairOrderId: work?.repairOrderId ?? null,
    repairOrderNumber: work?.repairOrderNumber ?? null,
    vehicleLabel: work?.vehicleLabel ?? null,
    plate: work?.plate ?? null,
  };
}

function placeOf(
  { horizon, names }: ShopPlan,
  { start, end, bay, technicians }: Omit<PlanAssignment, 'operation' | 'tools'>,
): PlanRunPlaceResponse {
  const technicianId = technicians[0] ?? null;
  return {
    startsAt: horizon.instantOf(start).toISOString(),
    endsAt: horizon.instantOf(end).toISOString(),
    bayId: bay,
    bayName: bay === null ? null : (names.get(bay) ?? null),
    technicianId,
    technicianName: technicianId === null ? null : (names.get(technicianId) ?? null),
  };
}

function givenUpPlace(shop: ShopPlan, workOrderId: string, why: string): PlanChangeResponse {
  const stored = shop.assignmentOf.get(workOrderId);
  const was = stored && {
    ...{ start: stored.start, end: stored.end, bay: stored.bayId },
    technicians: [stored.technicianId],
  };
  return {
    kind: 'taken-out',
    ...labelOf(shop, workOrderId),
    was: was ? placeOf(shop, was) : null,
    is: null,
    ...{ minutesLater: 0, technicianChanged: false, bayChanged: false },
    why,
  };
}
