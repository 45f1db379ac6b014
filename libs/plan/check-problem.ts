import { fail, ok } from '#libs/kernel';
import type { Fault, FieldFault, Result } from '#libs/kernel';
import type { Period, PlanOperation, PlanProblem } from './plan-problem.js';

export type PlanProblemFault = Fault<'plan-problem-invalid'>;

/** The latest time of a problem: some centuries in minutes would not fit the search's arithmetic, decades do. */
export const LATEST = 50_000_000;

/** Everything in a problem that contradicts itself; what is only impossible to do is answered by the plan instead. */
export function checkProblem(problem: PlanProblem): Result<PlanProblem, PlanProblemFault> {
  const fields: FieldFault[] = [];
  const say = (pointer: string, detail: string): void => void fields.push({ pointer, detail });
  const ids = (items: readonly { readonly id: string }[], pointer: string): Set<string> => {
    const seen = new Set<string>();
    items.forEach(({ id }, k) => {
      if (seen.has(id)) say(`${pointer}/${k}/id`, `"${id}" stands here twice.`);
      seen.add(id);
    });
    return seen;
  };
  const periods = (list: readonly Period[], pointer: string): void => {
    list.forEach(([from, to], k) => {
      if (!isTime(from) || !isTime(to) || from >= to)
        say(`${pointer}/${k}`, 'A period runs forward, in whole minutes.');
      else if (k > 0 && from < (list[k - 1]?.[1] ?? 0))
        say(`${pointer}/${k}`, 'Periods stand in order and apart.');
    });
  };
  if (!isTime(problem.now)) say('/now', 'This must be whole minutes from the origin.');
  const technicians = ids(problem.technicians, '/technicians');
  const bays = ids(problem.bays, '/bays');
  const tools = ids(problem.tools ?? [], '/tools');
  problem.technicians.forEach(({ works, engaged }, k) => {
    periods(works, `/technicians/${k}/works`);
    periods(engaged ?? [], `/technicians/${k}/engaged`);
  });
  problem.bays.forEach(({ outOfService }, k) => periods(outOfService ?? [], `/bays/${k}/outOfService`));
  problem.tools?.forEach(({ outOfService }, k) => periods(outOfService ?? [], `/tools/${k}/outOfService`));
  ids(problem.repairOrders, '/repairOrders');
  const operations = problem.repairOrders.flatMap((order) => order.operations);
  ids(operations, '/operations');
  problem.repairOrders.forEach((order, i) => {
    const at = `/repairOrders/${i}`;
    if (!isTime(order.promised ?? 0, -LATEST)) say(`${at}/promised`, 'This must be whole minutes.');
    if (!Number.isSafeInteger(order.weight ?? 1) || (order.weight ?? 1) < 0 || (order.weight ?? 1) > 1000)
      say(`${at}/weight`, 'A weight is a whole number from 0 to 1000.');
    const own = new Set(order.operations.map(({ id }) => id));
    order.operations.forEach((operation, k) =>
      operationFaults(operation, `${at}/operations/${k}`, {
        now: problem.now,
        own,
        technicians,
        bays,
        tools,
        say,
      }),
    );
    if (hasCircle(order.operations)) say(`${at}/operations`, 'They wait for each other in a circle.');
  });
  if (fields.length === 0) return ok(problem);
  const detail = fields.map((one) => `${one.pointer}: ${one.detail}`).join(' ');
  return fail('plan-problem-invalid', detail, { fields });
}

const isTime = (time: number, least = 0): boolean =>
  Number.isSafeInteger(time) && time >= least && time <= LATEST;

interface Known {
  readonly now: number;
  readonly own: ReadonlySet<string>;
  readonly technicians: ReadonlySet<string>;
  readonly bays: ReadonlySet<string>;
  readonly tools: ReadonlySet<string>;
  readonly say: (pointer: string, detail: string) => void;
}

function operationFaults(operation: PlanOperation, at: string, known: Known): void {
  const { say } = known;
  const minutes = [operation.minutes, ...Object.values(operation.minutesBy ?? {})];
  if (minutes.some((one) => !isTime(one, 1))) say(`${at}/minutes`, 'It takes at least one whole minute.');
  if (!isTime(operation.earliest ?? 0)) say(`${at}/earliest`, 'This must be whole minutes from the origin.');
  for (const id of operation.after ?? [])
    if (!known.own.has(id)) say(`${at}/after`, `"${id}" is not an operation of this repair order.`);
  const { started, pin } = operation;
  for (const id of pin?.technicians ?? [])
    if (!known.technicians.has(id)) say(`${at}/pin`, `There is no "${id}".`);
  if (pin?.bay != null && !known.bays.has(pin.bay)) say(`${at}/pin`, `There is no "${pin.bay}".`);
  if (pin?.bay != null && operation.bay == null) say(`${at}/pin/bay`, 'It is done off the car.');
  if (!isTime(pin?.start ?? 0)) say(`${at}/pin/start`, 'This must be whole minutes from the origin.');
  if (started == null) return;
  if (
    !isTime(started.start) ||
    !isTime(started.end) ||
    started.start >= started.end ||
    started.start > known.now
  )
    say(`${at}/started`, 'What was started began before now and ends after it began.');
  for (const id of started.technicians)
    if (!known.technicians.has(id)) say(`${at}/started`, `There is no "${id}".`);
  for (const id of started.tools) if (!known.tools.has(id)) say(`${at}/started`, `There is no "${id}".`);
  if ((started.bay === null) !== (operation.bay == null))
    say(`${at}/started/bay`, 'It has a bay when it needs one.');
  else if (started.bay !== null && !known.bays.has(started.bay))
    say(`${at}/started`, `There is no "${started.bay}".`);
}

function hasCircle(operations: readonly PlanOperation[]): boolean {
  const left = new Map(operations.map(({ id, after }) => [id, new Set(after ?? [])]));
  for (let found = true; found;) {
    found = false;
    for (const [id, waits] of left) {
      if ([...waits].some((other) => left.has(other))) continue;
      left.delete(id);
      found = true;
    }
  }
  return left.size > 0;
}
