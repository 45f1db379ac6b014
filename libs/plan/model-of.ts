import { bayTakes } from './bay-choice.js';
import { closedTimes } from './closed-times.js';
import { crewsOf } from './crew-choice.js';
import type { Crew } from './crew-choice.js';
import { FAR } from './far.js';
import { hopelessOf } from './hopeless-of.js';
import type { PlanModel, StartedWork } from './plan-model.js';
import type { PlanOperation, PlanProblem } from './plan-problem.js';
import { USUAL_WEIGHTS } from './plan-problem.js';
import { previousOf } from './previous-plan.js';
import { inBoth, joined, rotaOf } from './rota.js';
import { rowsOf } from './rows.js';
import { holdsOf, reachOf } from './teardowns.js';

const indexOf = (items: readonly { readonly id: string }[]): Map<string, number> =>
  new Map(items.map(({ id }, index) => [id, index]));

/** The crews of all operations with their calendars: one a technician, then one for every two that work together. */
function crewTable(problem: PlanProblem, operations: readonly PlanOperation[]) {
  const { technicians } = problem;
  const calendars = technicians.map(({ works }) => joined(works));
  const ofTwo = new Map<string, number>();
  const calendarOf = ({ lead, helper }: Crew): number => {
    if (helper < 0) return lead;
    const key = `${Math.min(lead, helper)}+${Math.max(lead, helper)}`;
    const known = ofTwo.get(key) ?? calendars.length;
    if (known === calendars.length) calendars.push(inBoth(calendars[lead] ?? [], calendars[helper] ?? []));
    ofTwo.set(key, known);
    return known;
  };
  const crews = operations.map((operation) => crewsOf(operation, technicians));
  const wanted = technicians.map(() => 0);
  for (const { lead } of crews.flat()) wanted[lead] = (wanted[lead] ?? 0) + 1;
  // Who can do the least comes first: among equals the search keeps the versatile free.
  for (const list of crews)
    list.sort(
      (a, b) => (wanted[a.lead] ?? 0) - (wanted[b.lead] ?? 0) || a.lead - b.lead || a.helper - b.helper,
    );
  const all = crews.flat();
  const of = (pick: (crew: Crew) => number): Int32Array => Int32Array.from(all.map(pick));
  return {
    calendars: () => calendars,
    rows: {
      crewFirst: rowsOf(crews.map((list) => list.map(() => 0))).first,
      crewLead: of(({ lead }) => lead),
      crewHelper: of(({ helper }) => helper),
      crewMinutes: of(({ minutes }) => minutes),
      crewUntil: of(({ until }) => until),
      crewCalendar: of(calendarOf),
    },
  };
}

/** Which bays each hold may use, the least wanted first. */
function holdTable(
  problem: PlanProblem,
  operations: readonly PlanOperation[],
  order: Int32Array,
  reach: readonly Uint8Array[],
) {
  const hold = new Int32Array(operations.length).fill(-1);
  const members: number[][] = [];
  let at = 0;
  problem.repairOrders.forEach((repairOrder, i) => {
    const numbers = new Map<number, number>();
    holdsOf(repairOrder, reach[i] ?? new Uint8Array(0)).forEach((own, k) => {
      if (own < 0) return;
      const number = numbers.get(own) ?? members.length;
      if (!numbers.has(own)) members.push([]);
      numbers.set(own, number);
      hold[at + k] = number;
      members[number]?.push(at + k);
    });
    at += repairOrder.operations.length;
  });
  const bays = members.map((list) => {
    const standing = list.map((o) => operations[o]?.started?.bay ?? null).find((bay) => bay !== null);
    return problem.bays.flatMap((bay, index) => {
      if (standing != null) return bay.id === standing ? [index] : [];
      const takes = list.every((o) => {
        const { bay: need, pin } = operations[o] ?? {};
        const { vehicle } = problem.repairOrders[order[o] ?? 0] ?? {};
        return bayTakes(bay, need ?? {}, vehicle) && (pin?.bay ?? bay.id) === bay.id;
      });
      return takes ? [index] : [];
    });
  });
  const wanted = problem.bays.map((_, bay) => bays.filter((list) => list.includes(bay)).length);
  for (const list of bays) list.sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0) || a - b);
  let severals = 0;
  const several = Int32Array.from(members.map((list) => (list.length > 1 ? severals++ : -1)));
  const holdSize = Int32Array.from(members.map((list) => list.length));
  return { hold, holds: members.length, holdBays: rowsOf(bays), holdSize, several, severals };
}

function startedWork(problem: PlanProblem, operations: readonly PlanOperation[]): StartedWork[] {
  const [technicians, bays, tools] = [
    indexOf(problem.technicians),
    indexOf(problem.bays),
    indexOf(problem.tools ?? []),
  ];
  const found = (ids: readonly string[], index: Map<string, number>): number[] =>
    ids.flatMap((id) => index.get(id) ?? []);
  return operations.flatMap(({ started }, operation) => {
    if (started == null) return [];
    const { start, end } = started;
    const bay = bays.get(started.bay ?? '') ?? -1;
    const people = found(started.technicians, technicians);
    return [{ operation, start, end, bay, technicians: people, tools: found(started.tools, tools) }];
  });
}

/** How operations of all repair orders follow each other. */
function precedence(problem: PlanProblem, index: ReadonlyMap<string, number>) {
  const before = problem.repairOrders.flatMap(({ operations }) =>
    operations.map(({ after }) => [...new Set(after ?? [])].flatMap((id) => index.get(id) ?? [])),
  );
  const after: number[][] = before.map(() => []);
  before.forEach((list, o) => list.forEach((earlier) => after[earlier]?.push(o)));
  return { before: rowsOf(before), after: rowsOf(after), lists: after };
}

/** The least that is left to do after each operation, by its shortest crews. */
function tailsOf(after: readonly (readonly number[])[], shortest: Int32Array): Int32Array {
  const tail = new Int32Array(shortest.length).fill(-1);
  const of = (o: number): number => {
    const known = tail[o] ?? 0;
    if (known >= 0) return known;
    const left = (after[o] ?? []).reduce((most, next) => Math.max(most, (shortest[next] ?? 0) + of(next)), 0);
    tail[o] = left;
    return left;
  };
  shortest.forEach((_, o) => of(o));
  return tail;
}

/** Where the operations of each repair order begin and end. */
function orderEnds({ repairOrders }: PlanProblem): Pick<PlanModel, 'orderFirst' | 'orderEnd'> {
  let at = 0;
  const orderFirst = new Int32Array(repairOrders.length);
  const orderEnd = Int32Array.from(repairOrders, ({ operations }, i) => {
    orderFirst[i] = at;
    return (at += operations.length);
  });
  return { orderFirst, orderEnd };
}

/** Three operations as they are on average, but at most a day's work. */
function nearOf(shortest: Int32Array): number {
  const sum = shortest.reduce((minutes, one) => minutes + one, 0);
  return Math.min(480, Math.round((3 * sum) / Math.max(1, shortest.length)));
}

export function modelOf(problem: PlanProblem): PlanModel {
  const { now, repairOrders, technicians, bays } = problem;
  const tools = problem.tools ?? [];
  const operations = repairOrders.flatMap((repairOrder) => repairOrder.operations);
  const order = Int32Array.from(repairOrders.flatMap((one, i) => one.operations.map(() => i)));
  const reach = repairOrders.map(reachOf);
  const index = indexOf(operations);
  const crews = crewTable(problem, operations);
  const { crewFirst, crewLead, crewHelper, crewMinutes } = crews.rows;
  const { lists, ...follow } = precedence(problem, index);
  const isStarted = Uint8Array.from(operations, ({ started }) => (started == null ? 0 : 1));
  const shortest = Int32Array.from(operations, ({ minutes }, o) => {
    if (isStarted[o] === 1) return 0;
    const times = crewMinutes.subarray(crewFirst[o], crewFirst[o + 1]);
    return times.length === 0 ? minutes : times.reduce((least, one) => Math.min(least, one), FAR);
  });
  const kinds = [...new Set(tools.map(({ kind }) => kind))];
  const kindIndex = (kind: string): number => (kinds.includes(kind) ? kinds.indexOf(kind) : kinds.length);
  const [bay0, tool0] = [technicians.length, technicians.length + bays.length];
  const car0 = tool0 + tools.length;
  const crewOf = (o: number, lead: number, helper: number): number => {
    for (let c = crewFirst[o] ?? 0; c < (crewFirst[o + 1] ?? 0); c++)
      if (crewLead[c] === lead && crewHelper[c] === helper) return c;
    return -1;
  };
  const toolKinds = rowsOf(operations.map((operation) => (operation.tools ?? []).map(kindIndex)));
  const { lateness } = { ...USUAL_WEIGHTS, ...problem.weights };
  const model = {
    problem,
    ids: operations.map(({ id }) => id),
    ...{ operations: operations.length, orders: repairOrders.length, technicians: technicians.length },
    ...{ bays: bays.length, bay0, tool0, car0, resources: car0 + repairOrders.length },
    rota: rotaOf(crews.calendars()),
    near: nearOf(shortest),
    order,
    release: Int32Array.from(operations, ({ earliest }, o) =>
      Math.max(now, earliest ?? 0, repairOrders[order[o] ?? 0]?.arrives ?? 0),
    ),
    ...{ tail: tailsOf(lists, shortest), shortest },
    ...holdTable(problem, operations, order, reach),
    needsLift: Uint8Array.from(operations, ({ bay }) => (bay?.lift === true ? 1 : 0)),
    ...follow,
    ...crews.rows,
    toolKinds,
    unitsOfKind: rowsOf(
      [...kinds, ''].map((kind) => tools.flatMap((tool, k) => (tool.kind === kind ? [k + tool0] : []))),
    ),
    pinStart: Int32Array.from(operations, ({ pin }) => pin?.start ?? -1),
    isStarted,
    liftUntil: Int32Array.from(bays, ({ lift }) => lift?.until ?? FAR),
    due: Int32Array.from(repairOrders, ({ promised }) => promised ?? FAR),
    weight: Int32Array.from(repairOrders, ({ weight }) => (weight ?? 1) * lateness),
    ...orderEnds(problem),
    reach,
    started: startedWork(problem, operations),
    previous: previousOf(problem, {
      ...{ operationIndex: index, technicianIndex: indexOf(technicians), bayIndex: indexOf(bays) },
      ...{ crewOf, isStarted, slotFirst: toolKinds.first },
      toolIndex: new Map(tools.map(({ id }, k) => [id, k + tool0])),
    }),
  };
  const isHopeless = hopelessOf(model);
  const holdSpan = new Int32Array(model.holds);
  model.hold.forEach((hold, o) => {
    if (hold >= 0) holdSpan[hold] = (holdSpan[hold] ?? 0) + (shortest[o] ?? 0);
  });
  const whole = { ...model, isHopeless, holdSpan };
  return { ...whole, ...closedTimes(whole) };
}
