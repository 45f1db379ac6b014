import { minutesOf } from './check-times.js';
import type { Period, PlanAssignment, PlanProblem } from './plan-problem.js';
import { seeded } from '#libs/chance';
import { inBoth } from './rota.js';
import { baysTaken } from './stays.js';

/** The normal quantile of 80 %. */
const Z80 = 0.8416;
const DRAWS = 200;

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
  const steps = stepsOf(problem, assignments);
  const resources = 1 + Math.max(-1, ...steps.flatMap(({ takes }) => takes));
  const random = seeded(seed);
  const ready: number[] = [];
  const [free, ends] = [new Float64Array(resources), new Float64Array(steps.length)];
  for (let draw = 0; draw < DRAWS; draw++) {
    free.fill(0);
    let end = 0;
    for (let k = 0; k < steps.length; k++) {
      const step = steps[k];
      if (step === undefined) continue;
      let since = step.start;
      for (const one of step.takes) since = Math.max(since, free[one] ?? 0);
      for (const one of step.after) since = Math.max(since, ends[one] ?? 0);
      // Everybody's chance is drawn, so that a repair order's does not depend on who is sure.
      const chance = Math.exp(step.spread * normal(random));
      const over = step.over ?? finish(step.works, since, Math.round(step.minutes * chance));
      for (const one of step.gives) free[one] = over;
      ends[k] = over;
      if (step.order === repairOrder) end = Math.max(end, over);
    }
    ready.push(end);
  }
  ready.sort((a, b) => a - b);
  return ready[Math.ceil(DRAWS * 0.8) - 1] ?? 0;
}

/** An assignment as what it takes, and what it gives back at its end: a bay only when the car leaves it. */
interface Step {
  readonly start: number;
  /** The end of work that was started. */
  readonly over: number | null;
  readonly order: string;
  readonly minutes: number;
  readonly spread: number;
  /** When all who do it work. */
  readonly works: readonly Period[];
  readonly takes: readonly number[];
  readonly gives: readonly number[];
  /** What must be over, among the steps before it. */
  readonly after: readonly number[];
}

function stepsOf(problem: PlanProblem, assignments: readonly PlanAssignment[]): Step[] {
  const operations = new Map(
    problem.repairOrders.flatMap((order) =>
      order.operations.map((operation) => [operation.id, { operation, order: order.id }]),
    ),
  );
  const works = new Map(problem.technicians.map((technician) => [technician.id, technician.works]));
  const ends = new Set(baysTaken(problem, assignments).map(({ last }) => last));
  const numbers = new Map<string, number>();
  const numberOf = (name: string): number => {
    const number = numbers.get(name) ?? numbers.size;
    numbers.set(name, number);
    return number;
  };
  const ordered = assignments
    .filter(({ operation }) => operations.has(operation))
    .sort((a, b) => a.start - b.start || a.end - b.end);
  const places = new Map(ordered.map(({ operation }, k) => [operation, k]));
  return ordered.flatMap((at): Step[] => {
    const found = operations.get(at.operation);
    if (found === undefined) return [];
    const { operation, order } = found;
    const others = [...at.technicians.map((id) => `who ${id}`), ...at.tools.map((id) => `tool ${id}`)];
    if (at.bay !== null) others.push(`car of ${order}`);
    const own = others.map(numberOf);
    const bay = at.bay === null ? [] : [numberOf(`bay ${at.bay}`)];
    const calendars = at.technicians.map((id) => works.get(id) ?? []);
    const p80 = Math.max(operation.minutes, operation.minutesP80 ?? operation.minutes);
    return [
      {
        ...{ start: at.start, over: operation.started?.end ?? null, order },
        minutes: minutesOf(operation, at.technicians),
        spread: Math.log(p80 / operation.minutes) / Z80,
        works: calendars
          .reduce((shared, one) => inBoth(shared, one), calendars[0] ?? [])
          .filter(([, to]) => to > at.start),
        takes: [...own, ...bay],
        gives: ends.has(at.operation) ? [...own, ...bay] : own,
        after: (operation.after ?? []).flatMap((id) => places.get(id) ?? []),
      },
    ];
  });
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
