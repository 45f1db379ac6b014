import { poolsOf } from './capacity-pools.js';
import type { Pool } from './capacity-pools.js';
import { FAR } from './far.js';
import { finishOf } from './finish-of.js';
import type { PlanModel } from './plan-model.js';

/** Into so many pieces the time is cut at least, beside the promises; more would take longer and say little more. */
const PIECES = 96;
/** From so many times on it is asked what must be done of what cannot be begun before. */
const WINDOWS = 6;

/**
 * Lateness that no plan can avoid, in weighted minutes; hopeless work is left out. Lateness is the sum over time of the
 * weights of what is promised by then and not ready. At every time that is at least: what could not be ready if each
 * repair order were alone in the shop; and, for every pool of people or bays, the lightest repair orders that hold as
 * much work as is promised by then beyond what the pool can have done.
 */
export function latenessBound(model: PlanModel): number {
  const ready = aloneReady(model);
  const due = Array.from(model.due).filter((time) => time < FAR);
  if (due.length === 0) return 0;
  const pools = poolsOf(model);
  const [first, last] = [Math.min(...due), Math.max(...ready, lastNeeded(model, pools))];
  const step = Math.max(1, Math.floor((last - first) / PIECES));
  const times = [...due, ...ready.filter((time) => time > first), last];
  for (let time = first; time < last; time += step) times.push(time);
  const sorted = [...new Set(times)].filter((time) => time <= last).sort((a, b) => a - b);
  const begins = windowsOf(model);
  const before = begins.map((time) => workedBy(model, time));
  let sum = 0;
  sorted.slice(1).forEach((to, k) => {
    const from = sorted[k] ?? 0;
    let least = 0;
    for (let order = 0; order < model.orders; order++)
      if ((model.due[order] ?? 0) <= from && from < (ready[order] ?? 0))
        least += model.problem.repairOrders[order]?.weight ?? 1;
    const worked = workedBy(model, to);
    begins.forEach((begin, window) => {
      if (begin > from) return;
      const room = worked.map((minutes, one) => minutes - (before[window]?.[one] ?? 0));
      for (const pool of pools) least = Math.max(least, unfinished(model, pool, { begin, from, to }, room));
    });
    sum += least * (to - from);
  });
  // Lateness is whole.
  return Math.max(0, Math.ceil(sum - 1e-6));
}

/** Now, and times spread over those from which on something can be begun. */
function windowsOf(model: PlanModel): number[] {
  const releases = [...new Set(model.release)].sort((a, b) => a - b);
  const spread = Array.from(
    { length: WINDOWS - 1 },
    (_, k) => releases[Math.floor(((k + 1) * releases.length) / WINDOWS)] ?? model.problem.now,
  );
  return [...new Set([model.problem.now, ...spread])];
}

/** Minutes that each technician works from now to a time. */
const workedBy = (model: PlanModel, time: number): number[] =>
  Array.from({ length: model.technicians }, (_, k) => workedUntil(model, k, time));

/** What is promised by `from` and cannot be begun before `begin`, looked at between that and `to`. */
interface Window {
  readonly begin: number;
  readonly from: number;
  readonly to: number;
}

/** The least weight of that which is not ready at `to`, as far as a pool's capacity in the window says. */
function unfinished(
  model: PlanModel,
  pool: Pool,
  { begin, from, to }: Window,
  room: readonly number[],
): number {
  const isIn = (order: number): boolean =>
    (model.due[order] ?? 0) <= from && (pool.since[order] ?? 0) >= begin;
  let left = -pool.bays * Math.max(0, to - begin);
  for (const technician of pool.technicians) left -= room[technician] ?? 0;
  for (const order of pool.orders) if (isIn(order)) left += pool.work[order] ?? 0;
  let weight = 0;
  for (const order of pool.orders) {
    if (left <= 0) break;
    if (!isIn(order)) continue;
    const work = pool.work[order] ?? 1;
    weight += (model.problem.repairOrders[order]?.weight ?? 1) * Math.min(1, left / work);
    left -= work;
  }
  return weight;
}

/** Minutes that a technician works from now to a time. */
function workedUntil({ rota, problem }: PlanModel, technician: number, time: number): number {
  let sum = 0;
  for (let k = rota.first[technician] ?? 0; (rota.from[k] ?? FAR) < Math.min(time, FAR); k++)
    sum += Math.max(0, Math.min(time, rota.to[k] ?? 0) - Math.max(problem.now, rota.from[k] ?? 0));
  return sum;
}

/** A time at which every pool has done all its work, or at which the calendars end. */
function lastNeeded(model: PlanModel, pools: readonly Pool[]): number {
  const { rota, technicians } = model;
  const ends = Array.from({ length: technicians }, (_, k) => {
    let at = rota.first[k] ?? 0;
    while ((rota.from[at + 1] ?? FAR) < FAR) at++;
    return (rota.from[at] ?? FAR) < FAR ? (rota.to[at] ?? 0) : 0;
  });
  let [low, high] = [model.problem.now, Math.max(model.problem.now, ...ends)];
  const isDone = (time: number): boolean => {
    const window = { begin: model.problem.now, from: FAR - 1, to: time };
    const room = workedBy(model, time);
    return pools.every((pool) => unfinished(model, pool, window, room) === 0);
  };
  while (low + 1 < high) {
    const middle = Math.floor((low + high) / 2);
    if (isDone(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** When each repair order is ready at the soonest, alone in the shop: whoever is done first by the calendars, after parts. */
function aloneReady(model: PlanModel): number[] {
  const end = new Float64Array(model.operations).fill(-1);
  for (const { operation, end: over } of model.started) end[operation] = over;
  const free = new Float64Array(model.technicians);
  for (const { technicians, end: over } of model.started)
    for (const one of technicians) free[one] = Math.max(free[one] ?? 0, over);
  const endOf = (o: number): number => {
    const known = end[o] ?? -1;
    if (known >= 0) return known;
    let ready = Math.max(model.release[o] ?? 0, model.pinStart[o] ?? -1);
    const { first, item } = model.before;
    for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) ready = Math.max(ready, endOf(item[k] ?? 0));
    let least = FAR;
    for (let c = model.crewFirst[o] ?? 0; c < (model.crewFirst[o + 1] ?? 0); c++) {
      const from = Math.max(ready, free[model.crewLead[c] ?? 0] ?? 0, free[model.crewHelper[c] ?? -1] ?? 0);
      if (from < FAR) least = Math.min(least, finishOf(model, c, from));
    }
    end[o] = least;
    return least;
  };
  const ready = Array.from({ length: model.orders }, () => 0);
  for (let o = 0; o < model.operations; o++) {
    const order = model.order[o] ?? 0;
    const over = endOf(o);
    if (over < FAR && model.isHopeless[o] !== 1) ready[order] = Math.max(ready[order] ?? 0, over);
  }
  return ready;
}
