import { crewsOf } from './crew-choice.js';
import { bayTakes } from './bay-choice.js';
import { quoted } from './naming.js';
import type { Naming, Wording } from './naming.js';
import { baysTaken } from './stays.js';
import type { PlanAssignment, PlanOperation, PlanProblem, PlanRepairOrder } from './plan-problem.js';
import type { Plan } from './plan-result.js';

export type WaitsFor =
  | 'now'
  | 'started'
  | 'pin'
  | 'parts'
  | 'vehicle'
  | 'work-order'
  | 'technician'
  | 'bay'
  | 'tool'
  | 'shift'
  | 'plan';

export interface Wait {
  readonly for: WaitsFor;
  readonly until: number;
  /** The technician, bay, tool or operation that it waits for. */
  readonly id: string | null;
  /** The operation that has it until then. */
  readonly by: string | null;
  /** True when nobody or nothing else would do. */
  readonly isOnly: boolean;
  readonly words: string;
  /** What would free it. */
  readonly remedy: string;
}

export interface Explanation {
  readonly operation: string;
  readonly start: number;
  /** What it waits for longest first; the first decides. */
  readonly waits: readonly Wait[];
}

/** Why a repair order is late: from its last operation back, each step the wait that decided. */
export interface LateChain {
  readonly repairOrder: string;
  readonly promised: number;
  readonly ready: number;
  readonly steps: readonly { readonly operation: string; readonly start: number; readonly wait: Wait }[];
}

export interface PlanExplanation {
  readonly operations: readonly Explanation[];
  readonly late: readonly LateChain[];
}

interface Told {
  readonly problem: PlanProblem;
  readonly plan: Plan;
  readonly name: Naming;
}

interface Known {
  readonly operation: PlanOperation;
  readonly order: PlanRepairOrder;
}

/** Why each assignment starts no earlier, and what made each broken promise late. */
export function explainPlan(problem: PlanProblem, plan: Plan, wording: Wording = {}): PlanExplanation {
  const name = wording.names ?? quoted;
  const known = new Map(
    problem.repairOrders.flatMap((order) =>
      order.operations.map((operation) => [operation.id, { operation, order }]),
    ),
  );
  const explained = new Map<string, Explanation>();
  for (const at of plan.assignments) {
    const found = known.get(at.operation);
    if (found === undefined) continue;
    const waits = waitsOf({ problem, plan, name }, at, found).sort((a, b) => b.until - a.until);
    explained.set(at.operation, { operation: at.operation, start: at.start, waits });
  }
  const late = problem.repairOrders.flatMap((order) => lateChain(order, plan, explained));
  return { operations: [...explained.values()], late };
}

function waitsOf({ problem, plan, name }: Told, at: PlanAssignment, { operation, order }: Known): Wait[] {
  const wait = (
    what: WaitsFor,
    until: number,
    words: string,
    remedy: string,
    more: Partial<Wait> = {},
  ): Wait => ({
    ...{ for: what, until, id: null, by: null, isOnly: false, words, remedy },
    ...more,
  });
  if (operation.started != null)
    return [wait('started', at.start, 'It was started.', 'Nothing: it is under way.')];
  if (operation.pin?.start != null)
    return [wait('pin', at.start, 'A person laid its time down.', 'Take the pin off.')];
  const waits: Wait[] = [];
  const add = (one: Wait): void => {
    if (one.until > problem.now && one.until <= at.start) waits.push(one);
  };
  add(wait('parts', operation.earliest ?? 0, 'Its parts come then.', 'Parts that come sooner.'));
  add(wait('vehicle', order.arrives ?? 0, 'The vehicle comes then.', 'The vehicle brought sooner.'));
  for (const other of plan.assignments) {
    if (other.operation === at.operation || other.end > at.start) continue;
    const by = { by: other.operation };
    if ((operation.after ?? []).includes(other.operation)) {
      const words = `${name(other.operation)} must be over first.`;
      add(
        wait('work-order', other.end, words, `${name(other.operation)} done sooner.`, {
          ...by,
          id: other.operation,
        }),
      );
    }
    for (const id of at.technicians.filter((one) => other.technicians.includes(one)))
      add(technicianWait({ problem, name }, operation, id, other, wait));
    for (const id of at.tools.filter((one) => other.tools.includes(one)))
      add(
        wait('tool', other.end, `${name(id)} is in use until then.`, 'One more of this tool.', { ...by, id }),
      );
  }
  for (const stay of baysTaken(problem, plan.assignments)) {
    if (stay.bay !== at.bay || stay.order === order.id || stay.to > at.start) continue;
    const others = problem.bays.filter((bay) => bayTakes(bay, operation.bay ?? {}, order.vehicle)).length;
    const remedy =
      others > 1 ? 'A bay of this kind that is given back sooner.' : 'A second bay that takes this vehicle.';
    add(
      wait('bay', stay.to, `${name(stay.bay)} is held until then.`, remedy, {
        id: at.bay,
        by: stay.last,
        isOnly: others === 1,
      }),
    );
  }
  const latest = waits.reduce((most, { until }) => Math.max(most, until), problem.now);
  if (latest < at.start) waits.push(...restOf({ problem, name }, at, latest, wait));
  if (waits.length === 0) waits.push(wait('now', at.start, 'It can start at once.', 'Nothing.'));
  return waits;
}

type MakeWait = (what: WaitsFor, until: number, words: string, remedy: string, more?: Partial<Wait>) => Wait;

function technicianWait(
  { problem, name }: Omit<Told, 'plan'>,
  operation: PlanOperation,
  id: string,
  other: PlanAssignment,
  wait: MakeWait,
): Wait {
  const leads = new Set(crewsOf(operation, problem.technicians).map(({ lead }) => lead));
  const isOnly = leads.size === 1;
  const skills = (operation.skills ?? []).join(' and ');
  const words =
    isOnly && skills !== ''
      ? `${name(id)} alone holds ${skills} and is taken until then.`
      : `${name(id)} is taken until then.`;
  const remedy =
    isOnly && skills !== '' ? `A second person who holds ${skills}.` : 'Somebody else who is free.';
  return wait('technician', other.end, words, remedy, { id, by: other.operation, isOnly });
}

/** Nothing is in its way and yet it starts later: its people do not work, or the plan keeps it where it was. */
function restOf(
  { problem, name }: Omit<Told, 'plan'>,
  at: PlanAssignment,
  latest: number,
  wait: MakeWait,
): Wait[] {
  const works = at.technicians.flatMap((id) => {
    const found = problem.technicians.find((technician) => technician.id === id);
    return found === undefined ? [] : [found];
  });
  const idle = works.find(({ works: periods }) => periods.some(([from]) => from === at.start));
  const isIdle =
    idle !== undefined &&
    !works.every(({ works: periods }) => periods.some(([from, to]) => from <= latest && latest < to));
  if (isIdle)
    return [
      wait('shift', at.start, `${name(idle.id)} works again then.`, 'A longer shift.', { id: idle.id }),
    ];
  const was = problem.previous?.find(({ operation }) => operation === at.operation);
  if (was?.start === at.start)
    return [wait('plan', at.start, 'It keeps the time that was planned before.', 'A new plan.')];
  return [wait('plan', at.start, 'It leaves room for more urgent work.', 'A promise given up elsewhere.')];
}

function lateChain(
  order: PlanRepairOrder,
  plan: Plan,
  explained: ReadonlyMap<string, Explanation>,
): LateChain[] {
  const ids = new Set(order.operations.map(({ id }) => id));
  const mine = plan.assignments.filter(({ operation }) => ids.has(operation));
  const last = mine.reduce<PlanAssignment | null>(
    (latest, one) => (latest === null || one.end > latest.end ? one : latest),
    null,
  );
  if (last === null || order.promised == null || last.end <= order.promised) return [];
  const steps: LateChain['steps'][number][] = [];
  const seen = new Set<string>();
  for (let id: string | null = last.operation; id !== null && !seen.has(id);) {
    seen.add(id);
    const found: Explanation | undefined = explained.get(id);
    const wait: Wait | undefined = found?.waits[0];
    if (found === undefined || wait === undefined) break;
    steps.push({ operation: id, start: found.start, wait });
    id = wait.by;
  }
  return [{ repairOrder: order.id, promised: order.promised, ready: last.end, steps }];
}
