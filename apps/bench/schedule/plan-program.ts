import type { Period, PlanOperation, PlanProblem } from '#libs/plan';
import { calendarRows, calendarsOf, unitOf } from './plan-calendars.js';
import type { Scale } from './plan-calendars.js';

const list = (values: readonly (number | string)[]): string => `[${values.join(', ')}]`;

/** How the end of an operation is written, counted from 1. */
type Term = (operation: number) => string;

interface Way {
  readonly operation: number;
  readonly technician: number;
}

/** Whether the model below says all that a problem does. */
function isPlain(problem: PlanProblem): boolean {
  const { technicians, bays, tools = [], repairOrders, previous } = problem;
  const kinds = tools.map(({ kind }) => kind);
  const isPlainOperation = (one: PlanOperation): boolean =>
    (one.crew ?? 1) === 1 &&
    one.started == null &&
    one.pin == null &&
    Object.keys(one.minutesBy ?? {}).length === 0 &&
    (one.bay == null || (one.bay.liftKind == null && (one.bay.kinds ?? []).length === 0)) &&
    (one.tools ?? []).every((kind) => kinds.includes(kind));
  return (
    (previous ?? []).length === 0 &&
    new Set(kinds).size === kinds.length &&
    bays.every(({ outOfService }) => (outOfService ?? []).length === 0) &&
    bays.every(({ lift, maxHeightMm }) => lift != null && lift.until == null && maxHeightMm == null) &&
    technicians.every(({ skills }) => (skills ?? []).every(({ until }) => until == null)) &&
    repairOrders.every(({ operations, vehicle }) => {
      const weight = vehicle?.weightKg ?? Infinity;
      return (
        bays.every(({ lift }) => weight <= (lift?.capacityKg ?? 0)) && operations.every(isPlainOperation)
      );
    })
  );
}

interface Stay {
  readonly first: readonly number[];
  readonly last: readonly number[];
}

/** The stays in bays, operations as numbers. */
function staysOf({ repairOrders }: PlanProblem): Stay[] {
  const stays = new Map<string, number[]>();
  let at = 0;
  for (const { id, operations } of repairOrders)
    for (const one of operations) {
      if (one.bay != null) {
        const key = one.teardown == null ? `one ${one.id}` : `all ${id} ${one.teardown}`;
        stays.set(key, [...(stays.get(key) ?? []), at]);
      }
      at++;
    }
  const all = repairOrders.flatMap(({ operations }) => operations);
  return [...stays.values()].map((own) => endsOf(own, all));
}

/** Operations that may be the first and those that may be the last of a stay: one each when each waits for the one before. */
function endsOf(own: readonly number[], operations: readonly PlanOperation[]): Stay {
  const isChain = own.every((o, k) => {
    const before = operations[own[k - 1] ?? -1];
    return before === undefined || operations[o]?.after?.includes(before.id) === true;
  });
  return isChain ? { first: own.slice(0, 1), last: own.slice(-1) } : { first: own, last: own };
}

const least = (terms: readonly string[]): string =>
  terms.length === 1 ? (terms[0] ?? '0') : `min(${list(terms)})`;
const most = (terms: readonly string[]): string =>
  terms.length === 1 ? (terms[0] ?? '0') : `max(${list(terms)})`;

/** The operations of one car that need a bay, as numbers. */
const carOf = ({ operations }: PlanProblem['repairOrders'][number], first: number): number[] =>
  operations.flatMap(({ bay }, k) => (bay == null ? [] : [first + k]));

/** One car is worked on in one place at a time, and a repair order is late by its last operations. */
function orderRows({ repairOrders }: PlanProblem, end: Term, scale: Scale): string[] {
  const rows: string[] = [];
  let first = 0;
  repairOrders.forEach((order, k) => {
    const car = carOf(order, first).map((o) => o + 1);
    if (car.length > 1) rows.push(`alone(${list(car)}, [], [])`);
    if (order.promised != null)
      order.operations.forEach(({ id }, j) => {
        if (order.operations.some(({ after }) => after?.includes(id) === true)) return;
        rows.push(`late[${k + 1}] >= ${end(first + j + 1)} - ${scale(order.promised ?? 0)}`);
      });
    first += order.operations.length;
  });
  return rows;
}

/** Operations and who can do them: each has one, and each technician one at a time, engaged or not. */
function peopleRows(
  { technicians }: PlanProblem,
  ways: readonly Way[],
  count: number,
  scale: Scale,
): string[] {
  const rows: string[] = [];
  const able = Array.from({ length: count }, (): number[] => []);
  ways.forEach(({ operation, technician }) => able[operation - 1]?.push(technician));
  able.forEach((_, k) => {
    const own = ways.flatMap(({ operation }, w) => (operation === k + 1 ? [`x[${w + 1}]`] : []));
    rows.push(`${own.length === 0 ? '0' : own.join(' + ')} = 1`);
  });
  technicians.forEach(({ engaged }, t) => {
    const own = ways.flatMap(({ technician }, w) => (technician === t ? [w + 1] : []));
    if (own.length > 0) rows.push(`person(${list(own)}, ${closed(engaged, scale)})`);
  });
  // It follows from the above, but until it is known who does what the solver would not see it.
  for (const text of new Set(able.map((people) => list(people)))) {
    const people = new Set(able.find((one) => list(one) === text));
    const own = able.flatMap((one, k) => (one.every((t) => people.has(t)) ? [k + 1] : []));
    if (own.length > people.size) rows.push(`crowd(${list(own)}, ${people.size})`);
  }
  return rows;
}

/** Closed times as two lists, of starts and of lengths. */
const closed = (periods: readonly Period[] | undefined, scale: Scale): string =>
  [
    list((periods ?? []).map(([from]) => scale(from))),
    list((periods ?? []).map(([from, to]) => scale(to - from))),
  ].join(', ');

/** Who may do what, by skills. */
const waysOf = ({ technicians }: PlanProblem, operations: readonly PlanOperation[]): Way[] =>
  operations.flatMap(({ skills = [] }, k) =>
    technicians.flatMap((one, t): Way[] => {
      const held = (one.skills ?? []).map(({ skill }) => skill);
      return skills.every((skill) => held.includes(skill)) ? [{ operation: k + 1, technician: t }] : [];
    }),
  );

/** Every time that a problem speaks of. */
const timesOf = ({ technicians, tools = [], repairOrders, now }: PlanProblem): number[] => [
  now,
  ...technicians.flatMap(({ works, engaged }) => [...works, ...(engaged ?? [])].flat()),
  ...tools.flatMap(({ outOfService }) => (outOfService ?? []).flat()),
  ...repairOrders.flatMap(({ promised, arrives, operations }) => [
    promised ?? 0,
    arrives ?? 0,
    ...operations.flatMap(({ minutes, earliest }) => [minutes, earliest ?? 0]),
  ]),
];

const PREDICATES = [
  'predicate person(array[int] of int: w, array[int] of int: from_, array[int] of int: long) =',
  '  cumulative([s[done[i]] | i in w] ++ from_, [dur[done[i]] | i in w] ++ long,',
  '    [x[i] | i in w] ++ [1 | i in long], 1);',
  'predicate crowd(array[int] of int: o, int: people) =',
  '  cumulative([s[i] | i in o], [dur[i] | i in o], [1 | i in o], people);',
  'predicate alone(array[int] of int: o, array[int] of int: from_, array[int] of int: long) =',
  '  disjunctive([s[i] | i in o] ++ from_, [dur[i] | i in o] ++ long);',
];

/**
 * The problem as a model in MiniZinc: s a start, e an end, x whether a technician does an operation, from and to a stay in a
 * bay; all times in the largest unit of which they are multiples. Null for what it does not say: crews of two, pins, bays
 * that differ or close. With `atMost`, a lateness that some plan has, a proof is found sooner.
 */
export function planProgram(problem: PlanProblem, atMost = Infinity): string | null {
  const { bays, tools = [], repairOrders, now } = problem;
  if (!isPlain(problem)) return null;
  const operations = repairOrders.flatMap((order) => order.operations);
  const last = Math.max(
    now,
    ...repairOrders.map(({ arrives }) => arrives ?? 0),
    ...operations.map(({ earliest }) => earliest ?? 0),
    ...problem.technicians.flatMap(({ engaged }) => (engaged ?? []).map(([, to]) => to)),
    ...tools.flatMap(({ outOfService }) => (outOfService ?? []).map(([, to]) => to)),
  );
  const calendars = calendarsOf(
    problem,
    last,
    operations.reduce((sum, { minutes }) => sum + minutes, 0),
  );
  const unit = unitOf(timesOf(problem));
  const scale: Scale = (time) => Math.floor(time / unit);
  const horizon = scale(calendars.horizon);
  const hasRest = calendars.of.length > 0;
  const end: Term = (o) => (hasRest ? `e[${o}]` : `s[${o}] + d[${o}]`);
  const index = new Map(operations.map(({ id }, k) => [id, k + 1]));
  const orderOf = repairOrders.flatMap((order) => order.operations.map(() => order));
  const ways = waysOf(problem, operations);
  const release = operations.map(({ earliest }, k) =>
    scale(Math.max(now, earliest ?? 0, orderOf[k]?.arrives ?? 0)),
  );
  const rows = operations.flatMap(({ after = [] }, k) =>
    after.map((id) => `${end(index.get(id) ?? 1)} <= s[${k + 1}]`),
  );
  rows.push(...peopleRows(problem, ways, operations.length, scale));
  tools.forEach(({ kind, outOfService }) => {
    const own = operations.flatMap((one, k) => (one.tools?.includes(kind) === true ? [k + 1] : []));
    if (own.length > 0) rows.push(`alone(${list(own)}, ${closed(outOfService, scale)})`);
  });
  const stays = staysOf(problem);
  stays.forEach((own, k) => {
    rows.push(`from[${k + 1}] = ${least(own.first.map((o) => `s[${o + 1}]`))}`);
    rows.push(`to[${k + 1}] = ${most(own.last.map((o) => end(o + 1)))}`);
  });
  rows.push(...orderRows(problem, end, scale));
  const n = operations.length;
  const weights = repairOrders.map(({ weight }) => weight ?? 1);
  const worst = Math.min(scale(atMost), horizon * weights.reduce((sum, weight) => sum + weight, 1));
  const times = (name: string, count: number): string => `array[1..${count}] of var 0..${horizon}: ${name};`;
  return [
    'include "globals.mzn";',
    `array[1..${n}] of int: d = ${list(operations.map(({ minutes }) => scale(minutes)))};`,
    `array[1..${n}] of int: release = ${list(release)};`,
    `array[1..${ways.length}] of int: done = ${list(ways.map(({ operation }) => operation))};`,
    ...[times('s', n), times('late', repairOrders.length)],
    `array[1..${ways.length}] of var 0..1: x;`,
    ...['from', 'to', 'stay'].map((name) => times(name, stays.length)),
    ...(hasRest ? [times('e', n), times('dur', n)] : [`array[1..${n}] of int: dur = d;`]),
    `var 0..${worst}: objective;`,
    ...PREDICATES,
    `constraint forall(i in 1..${n})(s[i] >= release[i]);`,
    ...calendarRows(calendars, n, ways, scale),
    ...rows.map((row) => `constraint ${row};`),
    `constraint forall(i in 1..${stays.length})(stay[i] = to[i] - from[i]);`,
    `constraint cumulative(from, stay, [1 | i in 1..${stays.length}], ${bays.length});`,
    `constraint objective = ${weights.map((weight, k) => `${weight} * late[${k + 1}]`).join(' + ')};`,
    'solve :: seq_search([int_search(late, smallest, indomain_min), int_search(s, smallest, indomain_min),',
    '  int_search(x, input_order, indomain_max)]) minimize objective;',
    `output ["objective=\\(${unit} * objective)"];`,
    '',
  ].join('\n');
}
