import { Draft } from './draft.js';
import type { Placer } from './placer.js';
import type { PlanAssignment } from './plan-problem.js';
import { sortByStart } from './sort-by-start.js';

/** A plan as a draft that comes out like it: what was not displaced is not started earlier than it is planned. */
export function draftOf(
  placer: Placer,
  free: readonly number[],
  assignments: readonly PlanAssignment[],
  displaced: ReadonlySet<string>,
): Draft {
  const { model } = placer;
  const { problem } = model;
  const draft = new Draft(model, free);
  const at = new Map(assignments.map((one) => [one.operation, one]));
  const technician = new Map(problem.technicians.map(({ id }, k) => [id, k]));
  const bay = new Map(problem.bays.map(({ id }, k) => [id, k]));
  for (const o of free) {
    const own = at.get(model.ids[o] ?? '');
    if (own === undefined) continue;
    draft.start[o] = own.start;
    if (!displaced.has(own.operation)) draft.from[o] = own.start;
    const [lead, helper] = [
      technician.get(own.technicians[0] ?? ''),
      technician.get(own.technicians[1] ?? '') ?? -1,
    ];
    for (let c = model.crewFirst[o] ?? 0; c < (model.crewFirst[o + 1] ?? 0); c++)
      if (model.crewLead[c] === lead && model.crewHelper[c] === helper) draft.wish[o] = c;
    const hold = model.hold[o] ?? -1;
    if (hold >= 0) draft.bayWish[hold] = bay.get(own.bay ?? '') ?? -1;
  }
  sortByStart(draft);
  placer.begin(draft);
  placer.place(draft, 0, 0, Infinity, null);
  if (!placer.hasWaited) return draft;
  sortByStart(draft);
  placer.begin(draft);
  placer.place(draft, 0, 0, Infinity, null);
  return draft;
}
