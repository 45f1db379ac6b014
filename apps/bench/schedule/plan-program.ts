import type { PlanOperation, PlanProblem } from '#libs/plan';

const list = (values: readonly (number | string)[]): string => `[${values.join(', ')}]`;

/** How much later than the last promise everything is surely done, in parts of all the work. */
const ROOM = 1;

interface Way {
  readonly operation: number;
  readonly technician: number;
}

const FULL = { from: 0, to: Infinity };

/** When somebody works, if it is in one piece; null otherwise. */
function period(works: PlanProblem['technicians'][number]['works']): { from: number; to: number } | null {
  const [only, ...more] = works;
  return only === undefined || more.length > 0 ? null : { from: only[0], to: only[1] };
}

/** Whether the model below says all that a problem does. */
function isPlain(problem: PlanProblem, horizon: number): boolean {
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
    [...bays, ...tools].every(({ outOfService }) => (outOfService ?? []).length === 0) &&
    bays.every(({ lift, maxHeightMm }) => lift != null && lift.until == null && maxHeightMm == null) &&
    technicians.every(({ works, engaged, skills }) => {
      const { from, to } = period(works) ?? { ...FULL, to: 0 };
      const isSure = (skills ?? []).every(({ until }) => until == null);
      return from <= problem.now && to >= horizon && (engaged ?? []).length === 0 && isSure;
    }) &&
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
function orderRows({ repairOrders }: PlanProblem): string[] {
  const rows: string[] = [];
  let first = 0;
  repairOrders.forEach((order, k) => {
    const car = carOf(order, first).map((o) => o + 1);
    if (car.length > 1) rows.push(`alone(${list(car)})`);
    if (order.promised != null)
      order.operations.forEach(({ id }, j) => {
        if (order.operations.some(({ after }) => after?.includes(id) === true)) return;
        const o = first + j + 1;
        rows.push(`late[${k + 1}] >= s[${o}] + d[${o}] - ${order.promised ?? 0}`);
      });
    first += order.operations.length;
  });
  return rows;
}

/**
 * The problem as a model in MiniZinc: s a start, x whether a technician does an operation, from and to a stay in a bay. Null
 * for what it does not say: shifts, closed times, crews of two, pins, bays that differ.
 * With `atMost`, a lateness that some plan has, a proof is found sooner.
 */
export function planProgram(problem: PlanProblem, atMost = Infinity): string | null {
  const { technicians, bays, tools = [], repairOrders, now } = problem;
  const operations = repairOrders.flatMap((order) => order.operations);
  const work = operations.reduce((sum, { minutes }) => sum + minutes, 0);
  const last = Math.max(
    now,
    ...repairOrders.map(({ promised, arrives }) => Math.max(promised ?? 0, arrives ?? 0)),
    ...operations.map(({ earliest }) => earliest ?? 0),
  );
  const horizon = Math.ceil(last + ROOM * work);
  if (!isPlain(problem, horizon)) return null;
  const index = new Map(operations.map(({ id }, k) => [id, k + 1]));
  const orderOf = repairOrders.flatMap((order) => order.operations.map(() => order));
  const ways = operations.flatMap(({ skills = [] }, k) =>
    technicians.flatMap((one, t): Way[] => {
      const held = (one.skills ?? []).map(({ skill }) => skill);
      return skills.every((skill) => held.includes(skill)) ? [{ operation: k + 1, technician: t }] : [];
    }),
  );
  const release = operations.map(({ earliest }, k) => Math.max(now, earliest ?? 0, orderOf[k]?.arrives ?? 0));
  const rows: string[] = [];
  operations.forEach((one, k) => {
    const own = ways.flatMap(({ operation }, w) => (operation === k + 1 ? [`x[${w + 1}]`] : []));
    rows.push(`${own.length === 0 ? '0' : own.join(' + ')} = 1`);
    for (const id of one.after ?? []) {
      const before = index.get(id) ?? 1;
      rows.push(`s[${before}] + d[${before}] <= s[${k + 1}]`);
    }
  });
  technicians.forEach((_, t) => {
    const own = ways.flatMap(({ technician }, w) => (technician === t ? [w + 1] : []));
    if (own.length > 0) rows.push(`person(${list(own)})`);
  });
  tools.forEach(({ kind }) => {
    const own = operations.flatMap((one, k) => (one.tools?.includes(kind) === true ? [k + 1] : []));
    if (own.length > 1) rows.push(`alone(${list(own)})`);
  });
  const stays = staysOf(problem);
  stays.forEach((own, k) => {
    rows.push(`from[${k + 1}] = ${least(own.first.map((o) => `s[${o + 1}]`))}`);
    rows.push(`to[${k + 1}] = ${most(own.last.map((o) => `s[${o + 1}] + d[${o + 1}]`))}`);
  });
  rows.push(...orderRows(problem));
  const n = operations.length;
  const weights = repairOrders.map(({ weight }) => weight ?? 1);
  const worst = Math.min(atMost, horizon * weights.reduce((sum, weight) => sum + weight, 1));
  return [
    'include "globals.mzn";',
    `array[1..${n}] of int: d = ${list(operations.map(({ minutes }) => minutes))};`,
    `array[1..${n}] of int: release = ${list(release)};`,
    `array[1..${ways.length}] of int: done = ${list(ways.map(({ operation }) => operation))};`,
    `array[1..${n}] of var 0..${horizon}: s;`,
    `array[1..${ways.length}] of var 0..1: x;`,
    `array[1..${repairOrders.length}] of var 0..${horizon}: late;`,
    `array[1..${stays.length}] of var 0..${horizon}: from;`,
    `array[1..${stays.length}] of var 0..${horizon}: to;`,
    `array[1..${stays.length}] of var 0..${horizon}: stay;`,
    `var 0..${worst}: objective;`,
    'predicate person(array[int] of int: w) =',
    '  cumulative([s[done[i]] | i in w], [d[done[i]] | i in w], [x[i] | i in w], 1);',
    'predicate alone(array[int] of int: o) = disjunctive([s[i] | i in o], [d[i] | i in o]);',
    `constraint forall(i in 1..${n})(s[i] >= release[i]);`,
    ...rows.map((row) => `constraint ${row};`),
    `constraint forall(i in 1..${stays.length})(stay[i] = to[i] - from[i]);`,
    `constraint cumulative(from, stay, [1 | i in 1..${stays.length}], ${bays.length});`,
    `constraint objective = ${weights.map((weight, k) => `${weight} * late[${k + 1}]`).join(' + ')};`,
    'solve :: seq_search([int_search(late, smallest, indomain_min), int_search(s, smallest, indomain_min),',
    '  int_search(x, input_order, indomain_max)]) minimize objective;',
    'output ["objective=\\(objective)"];',
    '',
  ].join('\n');
}
