import { periodsApart } from './periods-apart.js';
import type { Period, PlanAssignment, PlanProblem, PlanRepairOrder } from './plan-problem.js';
import { baysTaken } from './stays.js';

/** The shop as assignments leave it, for these repair orders alone: what they take is closed to all else. */
export function aroundPlan(
  problem: PlanProblem,
  assignments: readonly PlanAssignment[],
  repairOrders: readonly PlanRepairOrder[],
): PlanProblem {
  const byOne = new Map<string, Period[]>();
  const take = (key: string, period: Period): void => {
    const known = byOne.get(key);
    if (known === undefined) byOne.set(key, [period]);
    else known.push(period);
  };
  for (const { technicians, tools, start, end } of assignments) {
    for (const id of technicians) take(`technician ${id}`, [start, end]);
    for (const id of tools) take(`tool ${id}`, [start, end]);
  }
  for (const { bay, from, to } of baysTaken(problem, assignments)) take(`bay ${bay}`, [from, to]);
  const closedTo = (periods: readonly Period[] | undefined, key: string): Period[] =>
    periodsApart([...(periods ?? []), ...(byOne.get(key) ?? [])]);
  return {
    now: problem.now,
    technicians: problem.technicians.map((one) => ({
      ...one,
      engaged: closedTo(one.engaged, `technician ${one.id}`),
    })),
    bays: problem.bays.map((one) => ({ ...one, outOfService: closedTo(one.outOfService, `bay ${one.id}`) })),
    tools: problem.tools?.map((one) => ({
      ...one,
      outOfService: closedTo(one.outOfService, `tool ${one.id}`),
    })),
    repairOrders,
    weights: problem.weights,
  };
}
