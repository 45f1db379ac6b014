import type { BrokenRule, Placed, PlanRule } from './broken-rule.js';
import type { Naming } from './naming.js';
import type { PlanProblem } from './plan-problem.js';

/** That the bay is one for this work and this vehicle, and open. */
export function bayRules(
  problem: PlanProblem,
  { at, operation, order }: Placed,
  placed: ReadonlyMap<string, Placed>,
  name: Naming,
): BrokenRule[] {
  if (operation.started != null) return [];
  const broken: BrokenRule[] = [];
  const say = (rule: PlanRule, detail: string): void =>
    void broken.push({ rule, operations: [operation.id], detail });
  const need = operation.bay ?? null;
  if (need === null) {
    if (at.bay !== null) say('bay-not-needed', 'It is done off the car.');
    return broken;
  }
  if (at.bay === null) {
    say('bay-missing', 'It needs a bay.');
    return broken;
  }
  const bay = problem.bays.find(({ id }) => id === at.bay);
  if (bay === undefined) {
    say('bay-unknown', `There is no ${name(at.bay)}.`);
    return broken;
  }
  // Where a car stands apart already it is finished, whatever else is true of the bay.
  const isApart = order.operations.some(
    (other) =>
      other.started?.bay === bay.id && other.teardown != null && other.teardown === operation.teardown,
  );
  if (isApart) return broken;
  if ((need.kinds?.length ?? 0) > 0 && need.kinds?.includes(bay.kind ?? '') !== true)
    say('bay-kind', `${name(bay.id)} is not of a kind that will do.`);
  const { weightKg = null, heightMm = null } = order.vehicle ?? {};
  if (heightMm !== null && bay.maxHeightMm != null && heightMm > bay.maxHeightMm)
    say(
      'vehicle-too-high',
      `The vehicle is ${heightMm} mm high; ${name(bay.id)} takes ${bay.maxHeightMm} mm.`,
    );
  if (need.lift === true) {
    if (bay.lift == null) say('lift-missing', `${name(bay.id)} has no lift.`);
    else {
      if (need.liftKind != null && need.liftKind !== bay.lift.kind)
        say('lift-kind', `${name(bay.id)} has another lift.`);
      if (weightKg === null || weightKg > bay.lift.capacityKg)
        say('vehicle-too-heavy', `The lift of ${name(bay.id)} is rated for ${bay.lift.capacityKg} kg.`);
      if (bay.lift.until != null && at.end > bay.lift.until)
        say('lift-expired', `The inspection of ${name(bay.id)} is due.`);
    }
  }
  const mates = order.operations.flatMap((other) => {
    const mate = placed.get(other.id);
    const isMate = operation.teardown != null && other.teardown === operation.teardown;
    return isMate && mate !== undefined && mate.at.bay !== null ? [mate] : [];
  });
  const from = Math.min(at.start, ...mates.map((mate) => mate.at.start));
  const to = Math.max(at.end, ...mates.map((mate) => mate.at.end));
  for (const [closes, opens] of bay.outOfService ?? [])
    if (closes < to && from < opens) say('bay-closed', `${name(bay.id)} is out of service.`);
  return broken;
}
