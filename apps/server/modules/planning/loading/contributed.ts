import type { PlanRepairOrder } from '#libs/plan';
import type { Tx } from '../../../platform/database/tx.js';
import type { PlanContributor, PlanHorizon, PlanNote, StoredPlace } from './shop-plan.js';

/** What other modules bring in, all together. */
export interface Contributed {
  readonly repairOrders: readonly PlanRepairOrder[];
  readonly names: ReadonlyMap<string, string>;
  readonly places: ReadonlyMap<string, StoredPlace>;
  readonly notes: readonly PlanNote[];
}

export async function contributed(
  tx: Tx,
  horizon: PlanHorizon,
  contributors: readonly PlanContributor[],
): Promise<Contributed> {
  const all = [];
  for (const contributor of contributors) all.push(await contributor(tx, horizon));
  const places = all.flatMap((one) => [...(one.places ?? [])]);
  return {
    repairOrders: all.flatMap(({ repairOrders }) => repairOrders),
    names: new Map(all.flatMap(({ names }) => [...names])),
    places: new Map(
      places.map(([operation, place]) => [
        operation,
        { ...place, start: horizon.minuteOf(place.startsAt), end: horizon.minuteOf(place.endsAt) },
      ]),
    ),
    notes: all.flatMap(({ notes }) => notes ?? []),
  };
}
