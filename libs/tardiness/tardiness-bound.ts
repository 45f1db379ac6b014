import type { TardyJob } from './tardiness-problem.js';

const ROUNDS = 300;
const HAIR = 1e-6;

/**
 * A lateness below which no order can be. Lateness is at least u × (completion − due) for any multiplier u from zero to the
 * weight, and the least Σ u × completion is that of the jobs sorted by u / duration (Smith 1956); the multipliers are
 * raised for late jobs and lowered for early ones (Lagrangian relaxation, common practice). `known` is the lateness of
 * some order.
 */
export function tardinessBound(jobs: readonly TardyJob[], order: readonly number[], known: number): number {
  const size = jobs.length;
  const multipliers = new Float64Array(size);
  const ends = new Float64Array(size);
  const fill = (sorted: Iterable<number>): void => {
    let time = 0;
    for (const at of sorted) {
      time += jobs[at]?.duration ?? 0;
      ends[at] = time;
    }
  };
  fill(order);
  jobs.forEach(({ weight, due }, at) => (multipliers[at] = (ends[at] ?? 0) > due ? weight : 0));
  const sorted = [...order];
  let best = 0;
  let stride = 1;
  for (let round = 0; round < ROUNDS && best < known; round++) {
    const slope = (at: number): number => (multipliers[at] ?? 0) / Math.max(jobs[at]?.duration ?? 0, HAIR);
    sorted.sort((a, b) => slope(b) - slope(a));
    fill(sorted);
    let value = 0;
    let norm = 0;
    jobs.forEach(({ due }, at) => {
      const late = (ends[at] ?? 0) - due;
      value += (multipliers[at] ?? 0) * late;
      norm += late * late;
    });
    if (value > best) best = value;
    else stride *= 0.97;
    if (norm === 0) break;
    const step = (stride * Math.max(known - value, 1)) / norm;
    jobs.forEach(({ weight, due }, at) => {
      const raised = (multipliers[at] ?? 0) + step * ((ends[at] ?? 0) - due);
      multipliers[at] = Math.min(weight, Math.max(0, raised));
    });
  }
  // Latenesses are whole numbers.
  return Math.min(known, Math.max(0, Math.ceil(best - HAIR * Math.max(1, best))));
}
