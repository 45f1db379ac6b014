import type { PlanAssignment } from '#libs/plan';
import { placesOf } from '../loading/places-of.js';
import type { PlannedPlace, ShopPlan, StoredPlace, ToolUnit } from '../loading/shop-plan.js';

/** How the row of a place differs from what it should be. */
export interface PlaceWrite {
  /** Null for a place that there is no row of. */
  readonly stored: StoredPlace | null;
  readonly place: PlannedPlace;
  /**
   * moved: the plan put it there. running: it is under way and only follows what is so. held: only how long its car keeps
   * the bay is different.
   */
  readonly kind: 'new' | 'moved' | 'running' | 'held';
}

/** Everything that must be written so that the stored places are these assignments. */
export function writesFor(shop: ShopPlan, assignments: readonly PlanAssignment[]): PlaceWrite[] {
  const places = placesOf(shop, assignments);
  const started = new Set(
    shop.problem.repairOrders.flatMap(({ operations }) =>
      operations.flatMap(({ id, started: place }) => (place == null ? [] : [id])),
    ),
  );
  return places.flatMap((planned): PlaceWrite[] => {
    const stored = shop.assignmentOf.get(planned.operation) ?? null;
    // Work on the clock that nobody has given a place stays without one: in which bay it is nobody has said.
    if (stored === null)
      return started.has(planned.operation) ? [] : [{ stored, place: planned, kind: 'new' }];
    const isRunning = started.has(planned.operation);
    const place = isRunning ? nearStored(planned, stored, places) : planned;
    if (!isSamePlace(stored, place)) return [{ stored, place, kind: isRunning ? 'running' : 'moved' }];
    return time(stored.bayUntil) === time(place.bayUntil) ? [] : [{ stored, place, kind: 'held' }];
  });
}

const time = (instant: Date | null): number | null => instant?.getTime() ?? null;
const toolKey = (tools: readonly ToolUnit[]): string =>
  tools
    .map(({ toolId, unit }) => `${toolId} ${unit}`)
    .sort()
    .join('\n');

const isSamePlace = (stored: StoredPlace, place: PlannedPlace): boolean =>
  stored.bayId === place.bayId &&
  stored.technicianId === place.technicianId &&
  time(stored.startsAt) === time(place.startsAt) &&
  time(stored.endsAt) === time(place.endsAt) &&
  toolKey(stored.tools) === toolKey(place.tools);

/** Work under way keeps the end that was said, unless it needs longer or something else is planned before that. */
function nearStored(
  planned: PlannedPlace,
  stored: StoredPlace,
  places: readonly PlannedPlace[],
): PlannedPlace {
  if (stored.endsAt <= planned.endsAt) return planned;
  const tools = new Set(planned.tools.map(({ toolId, unit }) => `${toolId} ${unit}`));
  const next = places
    .filter(
      (other) =>
        other !== planned &&
        other.startsAt >= planned.endsAt &&
        (other.bayId === planned.bayId ||
          other.technicianId === planned.technicianId ||
          other.tools.some(({ toolId, unit }) => tools.has(`${toolId} ${unit}`))),
    )
    .reduce((soonest, { startsAt }) => Math.min(soonest, startsAt.getTime()), stored.endsAt.getTime());
  const endsAt = new Date(next);
  const { bayUntil } = planned;
  return { ...planned, endsAt, bayUntil: bayUntil !== null && bayUntil > endsAt ? bayUntil : null };
}

/** Holds that stand in nobody's way, where the plan as it is stored must not be touched otherwise. */
export function harmlessHolds(shop: ShopPlan, writes: readonly PlaceWrite[]): PlaceWrite[] {
  const all = [...shop.assignmentOf.values()];
  return writes.filter(({ kind, place, stored }) => {
    const { bayUntil } = place;
    if (kind !== 'held' || stored === null) return false;
    if (bayUntil === null) return true;
    return !all.some(
      (other) =>
        other.assignmentId !== stored.assignmentId &&
        other.bayId === place.bayId &&
        other.startsAt < bayUntil &&
        (other.bayUntil ?? other.endsAt) > place.endsAt,
    );
  });
}
