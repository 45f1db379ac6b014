import { minutesOf } from './check-times.js';
import type { Period, PlanAssignment, PlanProblem } from './plan-problem.js';
import { seeded } from '#libs/chance';
import { inBoth } from './rota.js';
import { baysTaken } from './stays.js';

/** The normal quantile of 80 %. */
const Z80 = 0.8416;
const DRAWS = 200;

/** A piece of the plan as the draws need it; what it waits for and holds is told by numbers. */
interface Step {
  readonly start: number;
  readonly minutes: number;
  /** Standard deviation of the logarithm of its time. */
  readonly spread: number;
  /** When it is over, where it was started; else null. */
  readonly startedEnd: number | null;
  /** When it is over if it begins as planned and takes `minutes`. */
  readonly plannedEnd: number;
  readonly works: readonly Period[];
  readonly waitsFor: readonly number[];
  readonly gives: readonly number[];
  readonly after: readonly number[];
  readonly isMine: boolean;
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
  const { steps, resources } = stepsOf(problem, assignments, repairOrder);
  const free = new Float64Array(resources);
  const ends = new Float64Array(steps.length);
  const random = seeded(seed);
  const ready: number[] = [];
  for (let draw = 0; draw < DRAWS; draw++) {
    free.fill(0);
    ready.push(drawn(steps, free, ends, random));
  }
  ready.sort((a, b) => a - b);
  return ready[Math.ceil(DRAWS * 0.8) - 1] ?? 0;
}

/** One course that things may take: when the repair order is ready in it. Counted loops, as this is most of an offer's time. */
function drawn(steps: readonly Step[], free: Float64Array, ends: Float64Array, random: () => number): number {
  let ready = 0;
  for (let index = 0; index < steps.length; index++) {
    const step = steps[index];
    if (step === undefined) continue;
    const { waitsFor, gives, after } = step;
    let since = step.start;
    for (let k = 0; k < waitsFor.length; k++) since = Math.max(since, free[waitsFor[k] ?? 0] ?? 0);
    for (let k = 0; k < after.length; k++) since = Math.max(since, ends[after[k] ?? 0] ?? 0);
    const over = step.startedEnd ?? overAt(step, since, random);
    for (let k = 0; k < gives.length; k++) free[gives[k] ?? 0] = over;
    ends[index] = over;
    if (step.isMine && over > ready) ready = over;
  }
  return ready;
}

/** In the order of the plan, to the last one of the repair order: what begins later does not hold it up. */
function stepsOf(
  problem: PlanProblem,
  assignments: readonly PlanAssignment[],
  repairOrder: string,
): { steps: Step[]; resources: number } {
  const operations = new Map(
    problem.repairOrders.flatMap((order) =>
      order.operations.map((operation) => [operation.id, { operation, order: order.id }]),
    ),
  );
  const works = new Map(problem.technicians.map((technician) => [technician.id, technician.works]));
  const known = [...assignments]
    .sort((a, b) => a.start - b.start || a.end - b.end)
    .filter(({ operation }) => operations.has(operation));
  const last = known.findLastIndex(({ operation }) => operations.get(operation)?.order === repairOrder);
  const ordered = known.slice(0, last + 1);
  const endsStay = new Set(baysTaken(problem, assignments).map((stay) => stay.last));
  const numbers = new Map<string, number>();
  const numberOf = (name: string): number => {
    const number = numbers.get(name) ?? numbers.size;
    numbers.set(name, number);
    return number;
  };
  const indexOf = new Map(ordered.map(({ operation }, index) => [operation, index]));
  const steps = ordered.flatMap((at): Step[] => {
    const found = operations.get(at.operation);
    if (found === undefined) return [];
    const { operation, order } = found;
    const minutes = minutesOf(operation, at.technicians);
    const calendars = at.technicians.map((id) => works.get(id) ?? []);
    const rota = calendars
      .reduce((shared, one) => inBoth(shared, one), calendars[0] ?? [])
      .filter(([, to]) => to > at.start);
    const own = [...at.technicians, ...at.tools, ...(at.bay === null ? [] : [`car of ${order}`])].map(
      numberOf,
    );
    const bay = at.bay === null ? [] : [numberOf(at.bay)];
    return [
      {
        ...{ start: at.start, minutes, startedEnd: operation.started?.end ?? null },
        spread: Math.log(Math.max(1, (operation.minutesP80 ?? operation.minutes) / operation.minutes)) / Z80,
        ...{ works: rota, plannedEnd: finish(rota, at.start, minutes) },
        waitsFor: [...own, ...bay],
        gives: endsStay.has(at.operation) ? [...own, ...bay] : own,
        after: (operation.after ?? []).flatMap((id) => indexOf.get(id) ?? []),
        isMine: order === repairOrder,
      },
    ];
  });
  return { steps, resources: numbers.size };
}

/** Most work has no spread and begins as planned: then its end is known without a draw. */
function overAt(step: Step, since: number, random: () => number): number {
  if (step.spread === 0 && since === step.start) return step.plannedEnd;
  const took = step.spread === 0 ? step.minutes : step.minutes * Math.exp(step.spread * normal(random));
  return finish(step.works, since, Math.round(took));
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
