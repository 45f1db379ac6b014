import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { AssignmentRow } from '../data/assignment.entity.js';
import { AssignmentToolRow } from '../data/assignment-tool.entity.js';
import { freeUnits, takenBy, type WantedTool } from '../data/fit-place.js';
import { conflictsOf, type Place } from '../queries/conflicts.query.js';

/** A place that is free, with the units of the tools that go with it. */
export interface FreePlace extends Place {
  readonly tools: readonly { readonly toolId: string; readonly unit: number }[];
}

/**
 * Whether nothing planned has the bay, the technician or the tools at that time; who has one of them is told. The caller
 * has locked them by `lockPlaces`, and looks whether the place suits the work.
 */
export async function freePlace(
  tx: Tx,
  place: Place,
  tools: readonly WantedTool[],
  zone: string,
): Promise<Result<FreePlace>> {
  const taken = takenBy(await conflictsOf(tx, null, place, null), zone);
  if (taken) return taken;
  const units = await freeUnits(tx, tools, place, null);
  return units.ok ? ok({ ...place, tools: units.value }) : units;
}

/** Keeps places for work of a reservation, guarded like any other place. Pinned while it is only held on the phone. */
export async function keepPlaces(
  tx: Tx,
  places: ReadonlyMap<string, FreePlace>,
  isPinned: boolean,
): Promise<void> {
  for (const [reservationOperationId, { tools, ...place }] of places) {
    const assignmentId = tx.newId();
    const { startsAt, endsAt } = place;
    await tx.em.insert(AssignmentRow, {
      ...{ shopId: tx.shopId, id: assignmentId, reservationOperationId, ...place, isPinned },
      ...{ madeBy: tx.staffId, madeAt: tx.now, version: 1 },
    });
    await tx.em.insert(
      AssignmentToolRow,
      tools.map((unit) => ({ shopId: tx.shopId, assignmentId, ...unit, startsAt, endsAt })),
    );
  }
}
