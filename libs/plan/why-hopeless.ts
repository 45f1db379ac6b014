import { isPinnedElsewhere, wasDrivenOut } from './hopeless-of.js';
import type { PlanModel } from './plan-model.js';

/** Why an operation has no place, in a sentence. */
export function whyHopeless(model: PlanModel, o: number): string {
  const operation = model.problem.repairOrders.flatMap((order) => order.operations)[o];
  const own = model.hold[o] ?? -1;
  if (model.crewFirst[o] === model.crewFirst[o + 1]) {
    const skills = [...(operation?.skills ?? []), ...(operation?.helperSkills ?? [])];
    return skills.length > 0
      ? `Nobody here holds ${skills.join(' and ')}.`
      : 'There is nobody who could do it.';
  }
  if (own >= 0 && model.holdBays.first[own] === model.holdBays.first[own + 1])
    return 'No bay takes this vehicle for this work: kind, lift, rated capacity or height.';
  if (isPinnedElsewhere(model, o))
    return 'It is pinned to a bay other than the one in which its vehicle stands apart.';
  if (wasDrivenOut(model, own))
    return 'Another vehicle was worked on in the bay where this one was taken apart.';
  const pin = model.pinStart[o] ?? -1;
  if (pin >= 0 && pin < (model.release[o] ?? 0)) return 'It is pinned to a time before it can start.';
  const kinds = model.toolKinds.item.subarray(model.toolKinds.first[o], model.toolKinds.first[o + 1]);
  for (const kind of kinds) {
    const units = (model.unitsOfKind.first[kind + 1] ?? 0) - (model.unitsOfKind.first[kind] ?? 0);
    if (kinds.filter((other) => other === kind).length > units)
      return 'A special tool that it needs is not here.';
  }
  if (model.isHopeless[o] === 1) return 'Work before it, or in the same teardown, cannot be done.';
  if (pin >= 0) return 'It cannot be done at the time to which it is pinned.';
  return 'There is no room for it while the calendars last.';
}
