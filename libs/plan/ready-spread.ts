import { minutesOf } from './check-times.js';
import type { Period, PlanAssignment, PlanProblem } from './plan-problem.js';
import { seeded } from '#libs/chance';
import { rowsOf } from './rows.js';
import type { Rows } from './rows.js';
import { inBoth } from './rota.js';
import { baysTaken } from './stays.js';

/** The normal quantile of 80 %. */
const Z80 = 0.8416;
const DRAWS = 200;

/**
 * The plan as the draws need it, a row for each operation in its order: 200 draws go through all of it for every offer, so
 * what is waited for and held is told by numbers in flat rows.
 */
interface Course {
  readonly size: number;
  readonly start: Float64Array;
  readonly minutes: Float64Array;
  /** Standard deviation of the logarithm of its time. */
  readonly spread: Float64Array;
  /** When it is over if it begins as planned and takes `minutes`, or was started. */
  readonly plannedEnd: Float64Array;
  readonly isStarted: Uint8Array;
  readonly isMine: Uint8Array;
  readonly works: readonly (readonly Period[])[];
  readonly waitsFor: Rows;
  readonly gives: Rows;
  readonly after: Rows;
  readonly resources: number;
}

/**
 * When a repair order is ready in four of five cases, if everybody keeps the order of the plan and each operation takes
 * as long as its spread lets it: log-normal with `minutes` in the middle and `minutesP80` at 80 %. What is early waits
 * for its planned time.
 */
export function readyP80(
  problem: PlanProblem,
  assignments: readonly PlanAssignment[],
  repairOrder: string,
  seed: number,
): number {
  const course = courseOf(problem, assignments, repairOrder);
  const free = new Float64Array(course.resources);
  const ends = new Float64Array(course.size);
  const random = seeded(seed);
  const ready: number[] = [];
  for (let draw = 0; draw < DRAWS; draw++) {
    free.fill(0);
    ready.push(drawn(course, free, ends, random));
  }
  ready.sort((a, b) => a - b);
  return ready[Math.ceil(DRAWS * 0.8) - 1] ?? 0;
}

/** How things may go once: when the repair order is ready then. */
function drawn(course: Course, free: Float64Array, ends: Float64Array, random: () => number): number {
  const { size, start, isStarted, isMine, plannedEnd } = course;
  let ready = 0;
  for (let o = 0; o < size; o++) {
    const since = Math.max(start[o] ?? 0, latest(course.waitsFor, o, free), latest(course.after, o, ends));
    const over = isStarted[o] === 1 ? (plannedEnd[o] ?? 0) : overAt(course, o, since, random);
    const { first, item } = course.gives;
    for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) free[item[k] ?? 0] = over;
    ends[o] = over;
    if (isMine[o] === 1 && over > ready) ready = over;
  }
  return ready;
}

function latest({ first, item }: Rows, o: number, times: Float64Array): number {
  let last = 0;
  for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) {
    const time = times[item[k] ?? 0] ?? 0;
    if (time > last) last = time;
  }
  return last;
}

/** In the order of the plan, to the last one of the repair order: what begins later does not hold it up. */
function courseOf(problem: PlanProblem, assignments: readonly PlanAssignment[], repairOrder: string): Course {
  const operations = new Map(
    problem.repairOrders.flatMap((order) =>
      order.operations.map((operation) => [operation.id, { operation, order: order.id }]),
    ),
  );
  const works = new Map(problem.technicians.map((technician) => [technician.id, technician.works]));
  const known = [...assignments]
    .sort((a, b) => a.start - b.start || a.end - b.end)
    .flatMap((at) => {
      const found = operations.get(at.operation);
      return found === undefined ? [] : [{ at, ...found }];
    });
  const ordered = known.slice(0, known.findLastIndex(({ order }) => order === repairOrder) + 1);
  const endsStay = new Set(baysTaken(problem, assignments).map((stay) => stay.last));
  const numbers = new Map<string, number>();
  const numberOf = (name: string): number => {
    const number = numbers.get(name) ?? numbers.size;
    numbers.set(name, number);
    return number;
  };
  const indexOf = new Map(ordered.map(({ at }, index) => [at.operation, index]));
  const own = ordered.map(({ at, order }) =>
    [...at.technicians, ...at.tools, ...(at.bay === null ? [] : [`car of ${order}`])].map(numberOf),
  );
  const bays = ordered.map(({ at }) => (at.bay === null ? [] : [numberOf(at.bay)]));
  const rotas = ordered.map(({ at }) =>
    sharedBy(at.technicians.map((id) => works.get(id) ?? [])).filter(([, to]) => to > at.start),
  );
  const minutes = ordered.map(({ at, operation }) => minutesOf(operation, at.technicians));
  return {
    size: ordered.length,
    start: Float64Array.from(ordered, ({ at }) => at.start),
    minutes: Float64Array.from(minutes),
    spread: Float64Array.from(
      ordered,
      ({ operation }) =>
        Math.log(Math.max(1, (operation.minutesP80 ?? operation.minutes) / operation.minutes)) / Z80,
    ),
    plannedEnd: Float64Array.from(
      ordered,
      ({ at, operation }, o) => operation.started?.end ?? finish(rotas[o] ?? [], at.start, minutes[o] ?? 0),
    ),
    isStarted: Uint8Array.from(ordered, ({ operation }) => (operation.started == null ? 0 : 1)),
    isMine: Uint8Array.from(ordered, ({ order }) => (order === repairOrder ? 1 : 0)),
    works: rotas,
    waitsFor: rowsOf(own.map((list, o) => [...list, ...(bays[o] ?? [])])),
    gives: rowsOf(
      own.map((list, o) =>
        endsStay.has(ordered[o]?.at.operation ?? '') ? [...list, ...(bays[o] ?? [])] : list,
      ),
    ),
    after: rowsOf(
      ordered.map(({ operation }) => (operation.after ?? []).flatMap((id) => indexOf.get(id) ?? [])),
    ),
    resources: numbers.size,
  };
}

/** Most work has no spread and begins as planned: then its end is known without a draw. */
function overAt(course: Course, o: number, since: number, random: () => number): number {
  const spread = course.spread[o] ?? 0;
  if (spread === 0 && since === course.start[o]) return course.plannedEnd[o] ?? 0;
  const minutes = course.minutes[o] ?? 0;
  const took = spread === 0 ? minutes : minutes * Math.exp(spread * normal(random));
  return finish(course.works[o] ?? [], since, Math.round(took));
}

/** When all of them work. */
function sharedBy(calendars: readonly (readonly Period[])[]): readonly Period[] {
  return calendars
    .slice(1)
    .reduce<readonly Period[]>((shared, one) => inBoth(shared, one), calendars[0] ?? []);
}

/** Standard normal (Box and Muller 1958). */
function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

function finish(works: readonly Period[], since: number, minutes: number): number {
  let [left, at] = [minutes, since];
  for (const [from, to] of works) {
    if (to <= at) continue;
    at = Math.max(at, from);
    if (left <= to - at) return at + left;
    left -= to - at;
    at = to;
  }
  return at + left;
}
