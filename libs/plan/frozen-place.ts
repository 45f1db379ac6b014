import { minutesOf } from './check-times.js';
import type { Period, PlanAssignment, PlanOperation, PlanProblem } from './plan-problem.js';
import { inBoth } from './rota.js';

/**
 * Whether a place of the previous plan keeps its start because it is near. One that its people would now leave half-way,
 * for longer than the work takes, is worth nothing to anybody: they are away since, and the car would hold its bay.
 */
export function isFrozenPlace(
  { frozenUntil, technicians }: PlanProblem,
  operation: PlanOperation,
  was: PlanAssignment,
): boolean {
  if (was.start >= (frozenUntil ?? 0)) return false;
  const calendars = was.technicians.map((id) => technicians.find((one) => one.id === id)?.works ?? []);
  const works = calendars.reduce<readonly Period[]>((shared, one) => inBoth(shared, one), calendars[0] ?? []);
  const minutes = minutesOf(operation, was.technicians);
  const end = endOf(works, was.start, minutes);
  return end === null || end <= was.end + minutes;
}

/** Null where the calendar ends first: then whatever stands against the place is told by the rules. */
function endOf(works: readonly Period[], start: number, minutes: number): number | null {
  let left = minutes;
  for (const [from, to] of works) {
    const room = to - Math.max(from, start);
    if (room >= left) return Math.max(from, start) + left;
    left -= Math.max(0, room);
  }
  return null;
}
