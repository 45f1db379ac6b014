import { isFrozenPlace } from './frozen-place.js';
import type { PreviousPlan } from './plan-model.js';
import type { PlanAssignment, PlanOperation, PlanProblem } from './plan-problem.js';
import { USUAL_WEIGHTS } from './plan-problem.js';

const NEAR = 10;
const FURTHER = 3;

export interface PreviousTerms {
  readonly operationIndex: ReadonlyMap<string, number>;
  readonly technicianIndex: ReadonlyMap<string, number>;
  readonly bayIndex: ReadonlyMap<string, number>;
  /** The crew of an operation that these two are, -1 when they may not do it any more. */
  readonly crewOf: (operation: number, lead: number, helper: number) => number;
  readonly isStarted: Uint8Array;
  /** Where an operation's tools stand in a list of all. */
  readonly slotFirst: Int32Array;
  readonly toolIndex: ReadonlyMap<string, number>;
}

export function previousOf(problem: PlanProblem, terms: PreviousTerms): PreviousPlan {
  const n = terms.operationIndex.size;
  const none = (): Int32Array => new Int32Array(n).fill(-1);
  const zero = (): Int32Array => new Int32Array(n);
  const plan = {
    ...{ start: none(), end: none(), lead: none(), helper: none(), bay: none(), crew: none() },
    ...{
      isFrozen: new Uint8Array(n),
      moved: zero(),
      minuteMoved: zero(),
      technician: zero(),
      bayChanged: zero(),
    },
  };
  const weights = { ...USUAL_WEIGHTS, ...problem.weights };
  const unit = new Int32Array(terms.slotFirst[n] ?? 0).fill(-1);
  const operations = problem.repairOrders.flatMap((order) => order.operations);
  const enter = (operation: number, wanted: PlanOperation, was: PlanAssignment): void => {
    const [lead, helper] = [0, 1].map(
      (place) => terms.technicianIndex.get(was.technicians[place] ?? '') ?? -1,
    );
    plan.start[operation] = was.start;
    plan.end[operation] = was.end;
    plan.lead[operation] = lead ?? -1;
    plan.helper[operation] = helper ?? -1;
    plan.bay[operation] = terms.bayIndex.get(was.bay ?? '') ?? -1;
    was.tools.forEach((id, k) => {
      const slot = (terms.slotFirst[operation] ?? 0) + k;
      if (slot < (terms.slotFirst[operation + 1] ?? 0)) unit[slot] = terms.toolIndex.get(id) ?? -1;
    });
    if (terms.isStarted[operation] === 1) return;
    plan.crew[operation] = terms.crewOf(operation, lead ?? -1, helper ?? -1);
    const near = was.start <= problem.now + weights.nearMinutes ? NEAR : FURTHER;
    plan.moved[operation] = near * 60 * weights.startMoved;
    plan.minuteMoved[operation] = near * weights.hourMoved;
    plan.technician[operation] = near * 60 * weights.technicianChanged;
    plan.bayChanged[operation] = near * 60 * weights.bayChanged;
    plan.isFrozen[operation] = isFrozenPlace(problem, wanted, was) ? 1 : 0;
  };
  let any = false;
  for (const was of problem.previous ?? []) {
    const operation = terms.operationIndex.get(was.operation);
    const wanted = operations[operation ?? -1];
    if (operation === undefined || wanted === undefined) continue;
    enter(operation, wanted, was);
    any = true;
  }
  return { any, unit, ...plan };
}
