import { minutesOf } from './check-times.js';
import type { Period, PlanAssignment, PlanProblem } from './plan-problem.js';
import { seeded } from '#libs/chance';
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
    let end = 0;
    steps.forEach((step, index) => {
      let since = step.start;
      for (const resource of step.waitsFor) since = Math.max(since, free[resource] ?? 0);
      for (const earlier of step.after) since = Math.max(since, ends[earlier] ?? 0);
      const took = step.startedEnd === null ? step.minutes * Math.exp(step.spread * normal(random)) : 0;
      const over = step.startedEnd ?? finish(step.works, since, Math.round(took));
      for (const resource of step.gives) free[resource] = over;
      ends[index] = over;
      if (step.isMine) end = Math.max(end, over);
    });
    ready.push(end);
  }
  ready.sort((a, b) => a - b);
  return ready[Math.ceil(DRAWS * 0.8) - 1] ?? 0;
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
    const own = [...at.technicians, ...at.tools, ...(at.bay === null ? [] : [`car of ${order}`])].map(
      numberOf,
    );
    const bay = at.bay === null ? [] : [numberOf(at.bay)];
    return [
      {
        ...{ start: at.start, minutes, startedEnd: operation.started?.end ?? null },
        spread: Math.log(Math.max(1, (operation.minutesP80 ?? operation.minutes) / operation.minutes)) / Z80,
        works: (works.get(at.technicians[0] ?? '') ?? []).filter(([, to]) => to > at.start),
        waitsFor: [...own, ...bay],
        gives: endsStay.has(at.operation) ? [...own, ...bay] : own,
        after: (operation.after ?? []).flatMap((id) => indexOf.get(id) ?? []),
        isMine: order === repairOrder,
      },
    ];
  });
  return { steps, resources: numbers.size };
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
