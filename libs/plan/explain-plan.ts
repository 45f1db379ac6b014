import { crewsOf } from './crew-choice.js';
import { bayTakes } from './bay-choice.js';
import { quoted } from './naming.js';
import type { Naming, Wording } from './naming.js';
import { baysTaken, type BayStay } from './stays.js';
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
  /** What it waits for longest first, one for each person, tool, bay and earlier operation; the first decides. */
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
  readonly name: Naming;
}

interface Known {
  readonly operation: PlanOperation;
  readonly order: PlanRepairOrder;
}

/** Why each assignment starts no earlier, and what made each broken promise late. */
export function explainPlan(problem: PlanProblem, plan: Plan, wording: Wording = {}): PlanExplanation {
  const known = new Map(
    problem.repairOrders.flatMap((order) =>
      order.operations.map((operation) => [operation.id, { operation, order }]),
    ),
  );
  const explained = new Map<string, Explanation>();
  const around = surroundingsOf(problem, plan, wording.names ?? quoted);
  for (const at of plan.assignments) {
    const found = known.get(at.operation);
    if (found === undefined) continue;
    const waits = waitsOf(problem, around, at, found).sort((a, b) => b.until - a.until);
    explained.set(at.operation, { operation: at.operation, start: at.start, waits });
  }
  const late = problem.repairOrders.flatMap((order) => lateChain(order, plan, explained));
  return { operations: [...explained.values()], late };
}

/** What a plan has people, tools and bays do, gathered once for all operations. */
interface Surroundings {
  readonly name: Naming;
  readonly at: ReadonlyMap<string, PlanAssignment>;
  readonly byTechnician: ReadonlyMap<string, readonly PlanAssignment[]>;
  readonly byTool: ReadonlyMap<string, readonly PlanAssignment[]>;
  readonly byBay: ReadonlyMap<string, readonly BayStay[]>;
}

function surroundingsOf(problem: PlanProblem, { assignments }: Plan, name: Naming): Surroundings {
  return {
    name,
    at: new Map(assignments.map((one) => [one.operation, one])),
    byTechnician: grouped(assignments, ({ technicians }) => technicians),
    byTool: grouped(assignments, ({ tools }) => tools),
    byBay: grouped(baysTaken(problem, assignments), ({ bay }) => [bay]),
  };
}

function grouped<T>(items: readonly T[], keysOf: (item: T) => readonly string[]): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items)
    for (const key of keysOf(item)) {
      const known = groups.get(key);
      if (known === undefined) groups.set(key, [item]);
      else known.push(item);
    }
  return groups;
}

/** The last of these that is over when the operation starts; what was over before it held nothing up any more. */
function lastBefore(at: PlanAssignment, others: readonly PlanAssignment[] = []): PlanAssignment | null {
  return others.reduce<PlanAssignment | null>(
    (last, one) =>
      one.operation === at.operation || one.end > at.start || (last !== null && last.end >= one.end)
        ? last
        : one,
    null,
  );
}

function waitsOf(
  problem: PlanProblem,
  around: Surroundings,
  at: PlanAssignment,
  { operation, order }: Known,
): Wait[] {
  const { name } = around;
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
  for (const id of new Set(operation.after ?? [])) {
    const other = around.at.get(id);
    if (other === undefined) continue;
    // Work that has gone on past the time that was planned for it holds this up all the same, also when that has passed.
    const hasPassed = at.start <= problem.now;
    const until = hasPassed ? other.end : Math.min(other.end, at.start);
    const words = `${name(id)} must be over first.`;
    const held = wait('work-order', until, words, `${name(id)} done sooner.`, { by: id, id });
    if (hasPassed && until > problem.now) waits.push(held);
    else add(held);
  }
  for (const id of at.technicians) {
    const other = lastBefore(at, around.byTechnician.get(id));
    if (other !== null && other.end > problem.now)
      add(technicianWait({ problem, name }, operation, id, other, wait));
  }
  for (const id of at.tools) {
    const other = lastBefore(at, around.byTool.get(id));
    const more = { by: other?.operation ?? null, id };
    if (other !== null)
      add(wait('tool', other.end, `${name(id)} is in use until then.`, 'One more of this tool.', more));
  }
  const stay = lastStay(at, order, around.byBay.get(at.bay ?? ''));
  if (stay !== null && stay.to > problem.now) {
    const others = problem.bays.filter((bay) => bayTakes(bay, operation.bay ?? {}, order.vehicle)).length;
    const remedy =
      others > 1 ? 'A bay of this kind that is given back sooner.' : 'A second bay that takes this vehicle.';
    const more = { id: at.bay, by: stay.last, isOnly: others === 1 };
    add(wait('bay', stay.to, `${name(stay.bay)} is held until then.`, remedy, more));
  }
  const closed = problem.bays.find(({ id }) => id === at.bay)?.outOfService ?? [];
  for (const [, opens] of closed)
    add(
      wait(
        'bay',
        opens,
        `${name(at.bay ?? '')} is out of service until then.`,
        'The bay back in service sooner.',
        {
          id: at.bay,
        },
      ),
    );
  const latest = waits.reduce((most, { until }) => Math.max(most, until), problem.now);
  if (latest < at.start) {
    const takesApart = isFirstOfTeardown(around, operation, order);
    waits.push(...restOf({ problem, name }, at, { latest, takesApart }, wait));
  }
  if (waits.length === 0) waits.push(wait('now', at.start, 'It can start at once.', 'Nothing.'));
  return waits;
}

/** The last stay of another car in the bay that is over when the operation starts. */
function lastStay(
  at: PlanAssignment,
  order: PlanRepairOrder,
  stays: readonly BayStay[] = [],
): BayStay | null {
  return stays.reduce<BayStay | null>(
    (last, one) =>
      one.order === order.id || one.to > at.start || (last !== null && last.to >= one.to) ? last : one,
    null,
  );
}

type MakeWait = (what: WaitsFor, until: number, words: string, remedy: string, more?: Partial<Wait>) => Wait;

function technicianWait(
  { problem, name }: Told,
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
  { problem, name }: Told,
  at: PlanAssignment,
  { latest, takesApart }: { readonly latest: number; readonly takesApart: boolean },
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
  if (takesApart) {
    const words = 'Sooner the car would only stand apart for longer.';
    return [wait('plan', at.start, words, 'What follows it done sooner.')];
  }
  return [wait('plan', at.start, 'It leaves room for more urgent work.', 'A promise given up elsewhere.')];
}

/** Whether the car is in one piece until this begins. */
function isFirstOfTeardown(
  { at }: Surroundings,
  { id, bay, teardown }: PlanOperation,
  { operations }: PlanRepairOrder,
): boolean {
  if (bay == null || teardown == null) return false;
  const mates = operations.filter(
    (one) => one.id !== id && one.bay != null && one.teardown === teardown && at.has(one.id),
  );
  const start = at.get(id)?.start ?? 0;
  return mates.length > 0 && mates.every((one) => start < (at.get(one.id)?.start ?? 0));
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
