import type { Draft } from './draft.js';
import type { PlanModel } from './plan-model.js';
import type { PlanAssignment } from './plan-problem.js';
import type { Plan, Unplaced } from './plan-result.js';
import { whyHopeless } from './why-hopeless.js';

/** Where everything is, by operations (tools as in `PlanModel.toolKinds`). */
export type Schedule = Pick<Draft, 'start' | 'end' | 'crew' | 'bay' | 'unit'>;

/** A draft in the words of the problem, in the order of the problem. */
export function readOut(model: PlanModel, draft: Schedule): Plan {
  const { problem } = model;
  const assignments: PlanAssignment[] = [];
  const unplaced: Unplaced[] = [];
  const operations = problem.repairOrders.flatMap((order) => order.operations);
  operations.forEach((operation, o) => {
    const { started, id } = operation;
    const [crew, bay] = [draft.crew[o] ?? -1, draft.bay[o] ?? -1];
    if (started != null) {
      const { start, end, technicians, tools } = started;
      assignments.push({ operation: id, start, end, bay: started.bay, technicians, tools });
    } else if (crew < 0) {
      unplaced.push({ operation: id, why: whyHopeless(model, o) });
    } else {
      const people = [model.crewLead[crew] ?? 0, model.crewHelper[crew] ?? -1].filter((one) => one >= 0);
      const slots = model.toolKinds;
      const units = Array.from(draft.unit.subarray(slots.first[o], slots.first[o + 1]));
      assignments.push({
        operation: id,
        start: draft.start[o] ?? 0,
        end: draft.end[o] ?? 0,
        bay: bay < 0 ? null : (problem.bays[bay]?.id ?? null),
        technicians: people.map((one) => problem.technicians[one]?.id ?? ''),
        tools: units.map((unit) => problem.tools?.[unit - model.tool0]?.id ?? ''),
      });
    }
  });
  return { assignments, unplaced };
}
