import type { BrokenRule, Placed } from './broken-rule.js';
import { bayRules } from './check-bays.js';
import { crewRules } from './check-crews.js';
import { overlapRules } from './check-overlaps.js';
import { timeRules } from './check-times.js';
import { quoted } from './naming.js';
import type { Wording } from './naming.js';
import type { PlanProblem } from './plan-problem.js';
import type { Plan } from './plan-result.js';

/** Every rule that a plan breaks, read off the problem alone; nothing here is shared with the search. */
export function checkPlan(
  problem: PlanProblem,
  plan: Pick<Plan, 'assignments'> & Partial<Plan>,
  wording: Wording = {},
): BrokenRule[] {
  const name = wording.names ?? quoted;
  const broken: BrokenRule[] = [];
  const known = new Map(
    problem.repairOrders.flatMap((order) =>
      order.operations.map((operation) => [operation.id, { operation, order }]),
    ),
  );
  const placed = new Map<string, Placed>();
  for (const at of plan.assignments) {
    const found = known.get(at.operation);
    if (found === undefined) {
      broken.push({
        rule: 'operation-unknown',
        operations: [at.operation],
        detail: 'There is no such operation.',
      });
    } else if (placed.has(at.operation)) {
      broken.push({ rule: 'operation-twice', operations: [at.operation], detail: 'It is planned twice.' });
    } else placed.set(at.operation, { at, ...found });
  }
  const leftOut = new Set(plan.unplaced?.map(({ operation }) => operation));
  for (const id of known.keys())
    if (!placed.has(id) && !leftOut.has(id))
      broken.push({
        rule: 'operation-missing',
        operations: [id],
        detail: 'It is neither planned nor left out.',
      });
  for (const one of placed.values())
    broken.push(
      ...startedOrPinned(one),
      ...timeRules(problem, one, placed, name),
      ...crewRules(problem, one, name),
      ...bayRules(problem, one, placed, name),
    );
  broken.push(...overlapRules(problem, placed, name));
  return broken;
}

const same = (one: readonly string[], other: readonly string[]): boolean =>
  one.length === other.length && one.every((id, k) => id === other[k]);

function startedOrPinned({ at, operation }: Placed): BrokenRule[] {
  const { started, pin } = operation;
  const operations = [operation.id];
  if (started != null) {
    const isThere =
      at.start === started.start &&
      at.end === started.end &&
      at.bay === started.bay &&
      same(at.technicians, started.technicians) &&
      same(at.tools, started.tools);
    return isThere
      ? []
      : [{ rule: 'started-moved', operations, detail: 'It was started and cannot be anywhere else.' }];
  }
  const isMet =
    (pin?.start ?? at.start) === at.start &&
    (pin?.bay ?? at.bay) === at.bay &&
    (pin?.technicians ?? at.technicians).every((id, k) => at.technicians[k] === id);
  return isMet ? [] : [{ rule: 'pin-broken', operations, detail: 'It was laid down otherwise.' }];
}
