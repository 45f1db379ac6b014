import type { BrokenRule, Placed, PlanRule } from './broken-rule.js';
import type { Naming } from './naming.js';
import type { Period, PlanOperation, PlanProblem } from './plan-problem.js';

/** Working minutes in [start, end) of all that are given, at once. */
function workedTogether(calendars: readonly (readonly Period[])[], start: number, end: number): number {
  const edges = [start, end];
  for (const periods of calendars)
    for (const [from, to] of periods) {
      if (from > start && from < end) edges.push(from);
      if (to > start && to < end) edges.push(to);
    }
  const times = [...new Set(edges)].sort((a, b) => a - b);
  let worked = 0;
  times.forEach((from, k) => {
    const to = times[k + 1] ?? from;
    if (worksAt(calendars, from)) worked += to - from;
  });
  return worked;
}

const worksAt = (calendars: readonly (readonly Period[])[], time: number): boolean =>
  calendars.every((periods) => periods.some(([from, to]) => from <= time && time < to));

/** How long an operation takes these technicians. */
export function minutesOf(
  { minutes, minutesBy, crew }: PlanOperation,
  technicians: readonly string[],
): number {
  return Math.max(...technicians.slice(0, crew ?? 1).map((id) => minutesBy?.[id] ?? minutes));
}

export function timeRules(
  problem: PlanProblem,
  { at, operation, order }: Placed,
  placed: ReadonlyMap<string, Placed>,
  name: Naming,
): BrokenRule[] {
  if (operation.started != null) return [];
  const broken: BrokenRule[] = [];
  const say = (rule: PlanRule, detail: string, others: string[] = []): void =>
    void broken.push({ rule, operations: [operation.id, ...others], detail });
  if (at.start < problem.now) say('before-now', 'It starts in the past.');
  if (at.start < (operation.earliest ?? 0)) say('before-parts', 'Its parts are not there.');
  if (at.start < (order.arrives ?? 0)) say('before-arrival', 'The vehicle is not there.');
  for (const id of operation.after ?? []) {
    const earlier = placed.get(id);
    if (earlier === undefined || earlier.at.end > at.start)
      say('before-predecessor', `${name(id)} is not over before it.`, [id]);
  }
  const calendars = at.technicians.flatMap((id) => {
    const found = problem.technicians.find((technician) => technician.id === id);
    return found === undefined ? [] : [found.works];
  });
  if (calendars.length === 0) return broken;
  if (!worksAt(calendars, at.start) || !worksAt(calendars, at.end - 1))
    say('outside-shift', 'It starts or ends when its people do not work.');
  const worked = workedTogether(calendars, at.start, at.end);
  const needed = minutesOf(operation, at.technicians);
  if (worked !== needed)
    say('duration-wrong', `Its place has ${worked} working minutes and it needs ${needed}.`);
  return broken;
}
