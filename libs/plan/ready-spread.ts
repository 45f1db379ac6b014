import { minutesOf } from './check-times.js';
import type { Period, PlanAssignment, PlanProblem } from './plan-problem.js';
import { seeded } from '#libs/chance';
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
  const operations = new Map(
    problem.repairOrders.flatMap((order) =>
      order.operations.map((operation) => [operation.id, { operation, order: order.id }]),
    ),
  );
  const works = new Map(problem.technicians.map((technician) => [technician.id, technician.works]));
  const ordered = [...assignments].sort((a, b) => a.start - b.start || a.end - b.end);
  const lastOf = new Map(baysTaken(problem, assignments).map((stay) => [stay.last, stay]));
  const random = seeded(seed);
  const ready: number[] = [];
  for (let draw = 0; draw < DRAWS; draw++) {
    const free = new Map<string, number>();
    const ends = new Map<string, number>();
    let end = 0;
    for (const at of ordered) {
      const found = operations.get(at.operation);
      if (found === undefined) continue;
      const { operation, order } = found;
      const names = [...at.technicians, ...at.tools, ...(at.bay === null ? [] : [at.bay, `car of ${order}`])];
      const since = Math.max(
        at.start,
        ...names.map((name) => free.get(name) ?? 0),
        ...(operation.after ?? []).map((id) => ends.get(id) ?? 0),
      );
      const minutes = minutesOf(operation, at.technicians);
      const spread =
        Math.log(Math.max(1, (operation.minutesP80 ?? operation.minutes) / operation.minutes)) / Z80;
      const took = operation.started == null ? minutes * Math.exp(spread * normal(random)) : 0;
      const over =
        operation.started?.end ?? finish(works.get(at.technicians[0] ?? '') ?? [], since, Math.round(took));
      for (const name of names) if (name !== at.bay || lastOf.has(at.operation)) free.set(name, over);
      ends.set(at.operation, over);
      if (order === repairOrder) end = Math.max(end, over);
    }
    ready.push(end);
  }
  ready.sort((a, b) => a - b);
  return ready[Math.ceil(DRAWS * 0.8) - 1] ?? 0;
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
