import type { Chance } from '#libs/chance';
import type { Layout } from './layout.js';
import type { Kept } from './sequences.js';

/**
 * Lists all operations, each when its job has come to it, by what a rule wants first (least key first), each on the
 * machine where it ends first.
 */
export function dispatch(layout: Layout, chance: Chance, noise: number, into: Kept): void {
  const { size, jobs, machines, firstOfJob, lastOfJob, from, machineOf, durationOf, least } = layout;
  const next = Int32Array.from(firstOfJob);
  const ready = new Int32Array(jobs);
  const free = new Int32Array(machines);
  const left = new Int32Array(jobs);
  for (let job = 0; job < jobs; job++)
    for (let o = firstOfJob[job] as number; o <= (lastOfJob[job] as number); o++)
      left[job] = (left[job] as number) + (least[o] as number);
  let makespan = 0;
  for (let at = 0; at < size; at++) {
    let bestKey = Infinity;
    let bestJob = 0;
    let bestWay = 0;
    let bestEnd = 0;
    for (let job = 0; job < jobs; job++) {
      const o = next[job] as number;
      if (o > (lastOfJob[job] as number)) continue;
      let way = -1;
      let ends = Infinity;
      for (let w = from[o] as number; w < (from[o + 1] as number); w++) {
        const begun = Math.max(ready[job] as number, free[machineOf[w] as number] as number);
        const ended = begun + (durationOf[w] as number);
        if (ended < ends) {
          ends = ended;
          way = w;
        }
      }
      const start = ends - (durationOf[way] as number);
      const key = start + (chance.part() - 0.5) * noise * (left[job] as number) - 0.1 * (left[job] as number);
      if (key < bestKey) {
        bestKey = key;
        bestJob = job;
        bestWay = way;
        bestEnd = ends;
      }
    }
    const o = next[bestJob] as number;
    next[bestJob] = o + 1;
    left[bestJob] = (left[bestJob] as number) - (least[o] as number);
    ready[bestJob] = free[machineOf[bestWay] as number] = bestEnd;
    into.order[at] = o;
    into.way[o] = bestWay;
    if (bestEnd > makespan) makespan = bestEnd;
  }
  into.makespan = makespan;
}
