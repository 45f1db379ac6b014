import type { PlanAssignment, PlanOperation } from '#libs/plan';
import type { PlaceFacts } from './plan-facts.query.js';
import { unitId } from './resources.js';
import type { PlanHorizon, StoredPlace } from './shop-plan.js';

export const operationOfPlace = ({ workOrderId, reservationOperationId }: PlaceFacts): string =>
  workOrderId ?? reservationOperationId ?? '';

/** Of work orders. Those of other modules come with what they contribute. */
export function storedPlaces(places: readonly PlaceFacts[], horizon: PlanHorizon): Map<string, StoredPlace> {
  return new Map(
    places
      .filter(({ workOrderId }) => workOrderId !== null)
      .map((place) => [operationOfPlace(place), storedPlace(place, horizon)]),
  );
}

function storedPlace(place: PlaceFacts, { minuteOf }: PlanHorizon): StoredPlace {
  const [startsAt, endsAt] = [new Date(place.startsAt), new Date(place.endsAt)];
  return {
    ...{ assignmentId: place.id, version: place.version, workOrderId: place.workOrderId },
    ...{ bayId: place.bayId, technicianId: place.technicianId, startsAt, endsAt },
    bayUntil: place.bayUntil === null ? null : new Date(place.bayUntil),
    ...{ tools: place.tools, isPinned: place.isPinned, planRunId: place.planRunId, madeBy: place.madeBy },
    ...{ start: minuteOf(startsAt), end: minuteOf(endsAt) },
  };
}

/** What was planned before, of work that has not been started, with the unit of each tool that it needs. */
export function previousOf(
  operations: readonly PlanOperation[],
  places: ReadonlyMap<string, StoredPlace>,
): PlanAssignment[] {
  return operations.flatMap(({ id, started, tools }) => {
    const place = places.get(id);
    if (place === undefined || started != null) return [];
    const units = (tools ?? []).flatMap((kind) => {
      const found = place.tools.find(({ toolId }) => toolId === kind);
      return found === undefined ? [] : [unitId(kind, found.unit)];
    });
    const { start, end, bayId, technicianId } = place;
    return [{ operation: id, start, end, bay: bayId, technicians: [technicianId], tools: units }];
  });
}
