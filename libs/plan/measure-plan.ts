import { isFrozenPlace } from './frozen-place.js';
import type { PlanAssignment, PlanProblem } from './plan-problem.js';
import { USUAL_WEIGHTS } from './plan-problem.js';
import type { Plan, PlanCost } from './plan-result.js';
import { standingApart } from './standing-apart.js';

/** What a plan costs, read off the plan alone. */
export function measurePlan(problem: PlanProblem, plan: Pick<Plan, 'assignments'>): PlanCost {
  const at = new Map(plan.assignments.map((assignment) => [assignment.operation, assignment]));
  let [unplaced, lateness, blocked, finish] = [0, 0, 0, 0];
  for (const order of problem.repairOrders) {
    const placed = order.operations.flatMap(({ id }) => at.get(id) ?? []);
    unplaced += order.operations.length - placed.length;
    blocked += standingApart(order.operations, (id) => at.get(id)).blocked;
    if (placed.length === 0) continue;
    const ready = Math.max(...placed.map(({ end }) => end));
    finish += ready;
    if (order.promised != null) lateness += (order.weight ?? 1) * Math.max(0, ready - order.promised);
  }
  return { unplaced, ...changeOf(problem, at), lateness, blocked, finish };
}

type At = ReadonlyMap<string, PlanAssignment>;

/** What differs from the previous plan, and how much of the frozen time does. */
function changeOf(problem: PlanProblem, at: At): Pick<PlanCost, 'change' | 'frozenMoved'> {
  const weights = { ...USUAL_WEIGHTS, ...problem.weights };
  const started = new Set(
    problem.repairOrders.flatMap(({ operations }) =>
      operations.flatMap((one) => (one.started == null ? [] : [one.id])),
    ),
  );
  const known = new Map(
    problem.repairOrders.flatMap(({ operations }) =>
      operations.map((operation) => [operation.id, operation]),
    ),
  );
  let [tenths, frozenMoved] = [0, 0];
  for (const was of problem.previous ?? []) {
    const operation = known.get(was.operation);
    if (operation === undefined || started.has(was.operation)) continue;
    const is = at.get(was.operation);
    const isFrozen = isFrozenPlace(problem, operation, was);
    if (is === undefined) {
      if (isFrozen) frozenMoved++;
      continue;
    }
    const crewDiffers = was.technicians.join('\n') !== is.technicians.join('\n');
    const near = was.start <= problem.now + weights.nearMinutes ? 10 : 3;
    const minutes =
      (was.start === is.start
        ? 0
        : weights.startMoved + (Math.abs(is.start - was.start) * weights.hourMoved) / 60) +
      (crewDiffers ? weights.technicianChanged : 0) +
      (was.bay === is.bay ? 0 : weights.bayChanged);
    tenths += near * minutes;
    if (isFrozen && (was.start !== is.start || crewDiffers || was.bay !== is.bay)) frozenMoved++;
  }
  return { change: Math.ceil(tenths / 10 - 1e-9), frozenMoved };
}
