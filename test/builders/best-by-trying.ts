import type { PlanOperation, PlanProblem, PlanRepairOrder } from '#libs/plan';

interface Task {
  readonly operation: PlanOperation;
  readonly order: PlanRepairOrder;
}

interface Stay {
  bay: string;
  from: number;
  to: number;
  left: number;
}

interface Floor {
  readonly free: Map<string, number>;
  readonly ends: Map<string, number>;
  readonly stays: Map<string, Stay>;
}

/** What a plan is compared by: how much of the frozen time moved, then lateness. */
export interface Tried {
  readonly frozenMoved: number;
  readonly lateness: number;
}

/** More than any lateness of a tiny shop. */
const PER_FROZEN = 1_000_000;

/** As `triedAll`, the lateness alone. */
export const bestByTrying = (problem: PlanProblem, horizon: number): number | null =>
  triedAll(problem, horizon)?.lateness ?? null;

/**
 * The best of all complete plans of a tiny shop, by trying: every order of starts, every crew, bay and tool, and beside the
 * earliest start every one at which a bay opens again or that is frozen. Null when there is no complete plan. Minute by
 * minute and without any of the planner's code.
 */
export function triedAll(problem: PlanProblem, horizon: number): Tried | null {
  const all: Task[] = problem.repairOrders.flatMap((order) =>
    order.operations.map((operation) => ({ operation, order })),
  );
  let best = Infinity;
  const floor: Floor = { free: new Map(), ends: new Map(), stays: new Map() };
  const visit = (left: readonly Task[], since: number, cost: number): void => {
    if (cost >= best) return;
    if (left.length === 0) {
      best = cost;
      return;
    }
    for (const task of left) {
      if (!(task.operation.after ?? []).every((id) => floor.ends.has(id))) continue;
      for (const place of placesOf(problem, task, floor, since, horizon)) {
        const undo = put(problem, task, place, floor);
        const rest = left.filter((other) => other !== task);
        const isLast = !rest.some(({ order }) => order === task.order);
        const late = isLast ? lateness(task.order, floor) : 0;
        visit(rest, place.start, cost + late + frozenCost(problem, task, place));
        undo();
      }
    }
  };
  for (const task of all) if (task.operation.started != null) begin(problem, task, floor);
  const open = all.filter(({ operation }) => operation.started == null);
  const over = problem.repairOrders.filter(({ operations }) =>
    operations.every((one) => one.started != null),
  );
  visit(
    open,
    problem.now,
    over.reduce((sum, order) => sum + lateness(order, floor), 0),
  );
  if (best === Infinity) return null;
  return { frozenMoved: Math.floor(best / PER_FROZEN), lateness: best % PER_FROZEN };
}

function lateness({ operations, promised, weight }: PlanRepairOrder, floor: Floor): number {
  const ready = Math.max(...operations.map(({ id }) => floor.ends.get(id) ?? 0));
  return Math.max(0, ready - (promised ?? Infinity)) * (weight ?? 1);
}

/** What was started is there before anything else. */
function begin(problem: PlanProblem, task: Task, floor: Floor): void {
  const { started } = task.operation;
  if (started == null) return;
  const { technicians, tools, bay, start, end } = started;
  const names = [...technicians, ...tools, ...(bay === null ? [] : [`car ${task.order.id}`])];
  const later = new Map(names.map((name) => [name, Math.max(end, floor.free.get(name) ?? 0)]));
  put(problem, task, { start, end, names, bay, crew: technicians }, floor);
  for (const [name, free] of later) floor.free.set(name, free);
}

const formerOf = ({ previous, frozenUntil }: PlanProblem, { operation }: Task) =>
  previous?.find((was) => was.operation === operation.id && was.start < (frozenUntil ?? 0));

function frozenCost(problem: PlanProblem, task: Task, { start, bay, crew }: Place): number {
  const was = formerOf(problem, task);
  if (was === undefined) return 0;
  const isThere = was.start === start && was.bay === bay && was.technicians.join() === crew.join();
  return isThere ? 0 : PER_FROZEN;
}

interface Place {
  readonly start: number;
  readonly end: number;
  readonly names: readonly string[];
  readonly bay: string | null;
  readonly crew: readonly string[];
}

/** Which stay an operation belongs to: its teardown's or its own. */
const stayKey = ({ operation, order }: Task): string =>
  `${order.id} ${operation.teardown ?? `- ${operation.id}`}`;

function* placesOf(
  problem: PlanProblem,
  task: Task,
  floor: Floor,
  since: number,
  horizon: number,
): Generator<Place> {
  const { operation, order } = task;
  const ready = Math.max(
    since,
    operation.earliest ?? 0,
    order.arrives ?? 0,
    ...(operation.after ?? []).map((id) => floor.ends.get(id) ?? 0),
  );
  for (const crew of crewsFor(problem, operation))
    for (const tools of toolsFor(problem, operation.tools ?? []))
      for (const bay of baysFor(problem, task, floor)) {
        const names = [...crew, ...tools, ...(bay === null ? [] : [`car ${order.id}`])];
        const isIn = floor.stays.get(stayKey(task)) !== undefined;
        const from = Math.max(ready, ...names.map((name) => floor.free.get(name) ?? 0));
        const opens = bay === null || isIn ? from : Math.max(from, floor.free.get(bay) ?? 0);
        const later = (problem.bays.find(({ id }) => id === bay)?.outOfService ?? []).map(([, to]) => to);
        const tried = new Set<number>();
        const frozen = formerOf(problem, task)?.start ?? 0;
        for (const least of [opens, ...[...later, frozen].filter((to) => to > opens)]) {
          const found = firstFit(problem, task, { crew, tools, bay, from: least, floor, horizon });
          if (found === null || tried.has(found.start)) continue;
          tried.add(found.start);
          yield { ...found, names, bay, crew };
        }
      }
}

interface Wanted {
  readonly crew: readonly string[];
  readonly tools: readonly string[];
  readonly bay: string | null;
  readonly from: number;
  readonly floor: Floor;
  readonly horizon: number;
}

function firstFit(problem: PlanProblem, task: Task, wanted: Wanted): { start: number; end: number } | null {
  const { operation } = task;
  const people = wanted.crew.map((id) => problem.technicians.find((one) => one.id === id));
  const isWorking = (time: number): boolean =>
    people.every((one) => one?.works.some(([from, to]) => from <= time && time < to) === true);
  const needed = Math.max(...wanted.crew.map((id) => operation.minutesBy?.[id] ?? operation.minutes));
  for (let start = wanted.from; start < wanted.horizon; start++) {
    if (!isWorking(start) || (operation.pin?.start ?? start) !== start) continue;
    let end = start;
    for (let worked = 0; worked < needed && end < wanted.horizon; end++) if (isWorking(end)) worked++;
    if (end >= wanted.horizon) return null;
    if (isAllowed(problem, task, wanted, start, end)) return { start, end };
  }
  return null;
}

function isAllowed(
  problem: PlanProblem,
  task: Task,
  { crew, tools, bay, floor }: Wanted,
  start: number,
  end: number,
): boolean {
  const { operation } = task;
  const holds = (id: string | undefined, skills: readonly string[]): boolean =>
    skills.every((skill) =>
      problem.technicians.some(
        (one) =>
          one.id === id &&
          one.skills?.some((held) => held.skill === skill && (held.until ?? Infinity) >= end) === true,
      ),
    );
  if (!holds(crew[0], operation.skills ?? [])) return false;
  if (crew.length > 1 && !holds(crew[1], operation.helperSkills ?? [])) return false;
  const meets = (
    periods: readonly (readonly [number, number])[] | undefined,
    from: number,
    to: number,
  ): boolean => (periods ?? []).some(([a, b]) => a < to && from < b);
  if (crew.some((id) => meets(problem.technicians.find((one) => one.id === id)?.engaged, start, end)))
    return false;
  if (tools.some((id) => meets(problem.tools?.find((one) => one.id === id)?.outOfService, start, end)))
    return false;
  if (bay === null || standsApart(task)) return true;
  const place = problem.bays.find(({ id }) => id === bay);
  if (operation.bay?.lift === true && end > (place?.lift?.until ?? Infinity)) return false;
  return !meets(place?.outOfService, floor.stays.get(stayKey(task))?.from ?? start, end);
}

function crewsFor(problem: PlanProblem, { crew, pin }: PlanOperation): string[][] {
  const ids = problem.technicians.map(({ id }) => id);
  const all =
    crew === 2 ? ids.flatMap((a) => ids.filter((b) => b !== a).map((b) => [a, b])) : ids.map((a) => [a]);
  return all.filter((list) => (pin?.technicians ?? []).every((id, k) => list[k] === id));
}

function toolsFor(problem: PlanProblem, kinds: readonly string[]): string[][] {
  const [kind, ...rest] = kinds;
  if (kind === undefined) return [[]];
  return toolsFor(problem, rest).flatMap((list) =>
    (problem.tools ?? [])
      .filter((tool) => tool.kind === kind && !list.includes(tool.id))
      .map(({ id }) => [...list, id]),
  );
}

/** Whether its car stands apart since before the plan: there it is finished, whatever is true of the bay. */
const standsApart = ({ operation, order }: Task): boolean =>
  operation.teardown != null &&
  order.operations.some((one) => one.teardown === operation.teardown && one.started?.bay != null);

/** Bays in which it could be now: where its car stands apart, else any that is not held. */
function baysFor(problem: PlanProblem, task: Task, floor: Floor): (string | null)[] {
  const { operation, order } = task;
  if (operation.bay == null) return [null];
  const own = floor.stays.get(stayKey(task));
  const open = [...floor.stays].filter(([, stay]) => stay.left > 0);
  const elsewhere = open.find(([key]) => key.startsWith(`${order.id} `) && key !== stayKey(task))?.[1];
  const mates = order.operations.filter(
    (one) =>
      one === operation ||
      (operation.teardown != null && one.teardown === operation.teardown && one.bay != null),
  );
  return problem.bays
    .filter(({ id }) => {
      if (own !== undefined) return own.bay === id;
      if (elsewhere !== undefined) return elsewhere.bay === id && mates.length === 1;
      return !open.some(([, stay]) => stay.bay === id);
    })
    .filter((bay) =>
      standsApart(task)
        ? (operation.pin?.bay ?? bay.id) === bay.id
        : mates.every((mate) => takes(bay, mate, order)),
    )
    .map(({ id }) => id);
}

function takes(
  bay: PlanProblem['bays'][number],
  { bay: need, pin }: PlanOperation,
  { vehicle }: PlanRepairOrder,
): boolean {
  if ((pin?.bay ?? bay.id) !== bay.id) return false;
  if ((need?.kinds ?? []).length > 0 && need?.kinds?.includes(bay.kind ?? '') !== true) return false;
  if (vehicle?.heightMm != null && bay.maxHeightMm != null && vehicle.heightMm > bay.maxHeightMm)
    return false;
  if (need?.lift !== true) return true;
  const weight = vehicle?.weightKg ?? Infinity;
  return (
    bay.lift != null && weight <= bay.lift.capacityKg && (need.liftKind ?? bay.lift.kind) === bay.lift.kind
  );
}

function put(_problem: PlanProblem, task: Task, place: Place, floor: Floor): () => void {
  const { operation, order } = task;
  const was = place.names.map((name) => [name, floor.free.get(name)] as const);
  for (const name of place.names) floor.free.set(name, place.end);
  floor.ends.set(operation.id, place.end);
  const key = stayKey(task);
  const stay = floor.stays.get(key);
  const bayFree = place.bay === null ? undefined : floor.free.get(place.bay);
  if (place.bay !== null) {
    const members = order.operations.filter(
      (one) =>
        one.bay != null &&
        (one === operation || (operation.teardown != null && one.teardown === operation.teardown)),
    );
    const left = (stay?.left ?? members.length) - 1;
    floor.stays.set(key, { bay: place.bay, from: stay?.from ?? place.start, to: place.end, left });
    if (left === 0) floor.free.set(place.bay, Math.max(bayFree ?? 0, place.end));
  }
  return () => {
    for (const [name, free] of was)
      if (free === undefined) floor.free.delete(name);
      else floor.free.set(name, free);
    floor.ends.delete(operation.id);
    if (place.bay === null) return;
    if (bayFree === undefined) floor.free.delete(place.bay);
    else floor.free.set(place.bay, bayFree);
    if (stay === undefined) floor.stays.delete(key);
    else floor.stays.set(key, stay);
  };
}
