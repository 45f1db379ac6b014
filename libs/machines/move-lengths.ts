import type { Sequences } from './sequences.js';

/**
 * How long the plan would be by the operations that a move touches: the longest chain through any of them, with what
 * is around them as it is now. A close estimate in a few steps, where the exact makespan needs a pass over the plan
 * (E. Balas, A. Vazacopoulos 1998 for moves within a block; from memory).
 */
export class MoveLengths {
  /** For the operations passed by: their new heads or rests, in the order met. */
  private readonly times: Int32Array;
  private readonly passed: Int32Array;

  constructor(private readonly plan: Sequences) {
    this.times = new Int32Array(plan.layout.size);
    this.passed = new Int32Array(plan.layout.size);
  }

  /** After `u` is put right after `v`, which is later on the same machine. */
  later(u: number, v: number): number {
    const { times, passed, plan } = this;
    const { end, rest, duration, before, after, layout } = plan;
    const { jobBefore, jobAfter } = layout;
    let ended = end[before[u] as number] as number;
    let count = 0;
    for (let o = after[u] as number; ; o = after[o] as number) {
      const byJob = end[jobBefore[o] as number] as number;
      const head = byJob > ended ? byJob : ended;
      times[count] = head;
      passed[count++] = o;
      ended = head + (duration[o] as number);
      if (o === v) break;
    }
    let byJob = end[jobBefore[u] as number] as number;
    const head = byJob > ended ? byJob : ended;
    byJob = rest[jobAfter[u] as number] as number;
    let left = rest[after[v] as number] as number;
    left = (byJob > left ? byJob : left) + (duration[u] as number);
    let longest = head + left;
    for (let at = count - 1; at >= 0; at--) {
      const o = passed[at] as number;
      byJob = rest[jobAfter[o] as number] as number;
      left = (byJob > left ? byJob : left) + (duration[o] as number);
      const through = (times[at] as number) + left;
      if (through > longest) longest = through;
    }
    return longest;
  }

  /** After `v` is put right after `a` (first of all where that is none), which is earlier on the same machine. */
  sooner(v: number, a: number): number {
    const { times, passed, plan } = this;
    const { end, rest, duration, before, after, layout } = plan;
    const { jobBefore, jobAfter } = layout;
    let left = rest[after[v] as number] as number;
    let count = 0;
    for (let o = before[v] as number; o !== a; o = before[o] as number) {
      const byJob = rest[jobAfter[o] as number] as number;
      left = (byJob > left ? byJob : left) + (duration[o] as number);
      times[count] = left;
      passed[count++] = o;
    }
    let byJob = rest[jobAfter[v] as number] as number;
    left = (byJob > left ? byJob : left) + (duration[v] as number);
    byJob = end[jobBefore[v] as number] as number;
    let ended = end[a] as number;
    let head = byJob > ended ? byJob : ended;
    let longest = head + left;
    ended = head + (duration[v] as number);
    for (let at = count - 1; at >= 0; at--) {
      const o = passed[at] as number;
      byJob = end[jobBefore[o] as number] as number;
      head = byJob > ended ? byJob : ended;
      const through = head + (times[at] as number);
      if (through > longest) longest = through;
      ended = head + (duration[o] as number);
    }
    return longest;
  }
}
