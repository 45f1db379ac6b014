import { depthOf } from './kept.js';
import type { PlanModel } from './plan-model.js';

/** Operations that are out of the timetable and wait to be put in again, by rank and after what they come after. */
export class OutList {
  /** What they cost at least who had to leave the place of the previous plan and wait still. */
  owed = 0;
  private readonly out: number[] = [];
  private readonly rank: Float64Array;
  private readonly isOut: Uint8Array;
  private readonly owes: Float64Array;
  private readonly depth: Int32Array;

  constructor(private readonly model: PlanModel) {
    this.rank = new Float64Array(model.operations);
    this.isOut = new Uint8Array(model.operations);
    this.owes = new Float64Array(model.operations);
    this.depth = depthOf(model);
  }

  get count(): number {
    return this.out.length;
  }

  has(o: number): boolean {
    return this.isOut[o] === 1;
  }

  rankOf(o: number): number {
    return this.rank[o] ?? 0;
  }

  queue(o: number, rank: number): void {
    if (this.isOut[o] === 1) return;
    this.isOut[o] = 1;
    this.rank[o] = rank;
    this.out.push(o);
  }

  /** Takes note that an operation cannot be where the previous plan has it. */
  owe(o: number): void {
    const { previous } = this.model;
    const least = Math.min(previous.moved[o] ?? 0, previous.technician[o] ?? 0, previous.bayChanged[o] ?? 0);
    this.owed += least - (this.owes[o] ?? 0);
    this.owes[o] = least;
  }

  /** The next by rank of those whose predecessors are in; -1 when there is none. */
  next(): number {
    const { out, rank, depth, model } = this;
    let [best, at] = [-1, -1];
    for (let k = 0; k < out.length; k++) {
      const o = out[k] ?? 0;
      const isFirst =
        best < 0 ||
        (model.order[o] === model.order[best]
          ? (depth[o] ?? 0) < (depth[best] ?? 0)
          : (rank[o] ?? 0) < (rank[best] ?? 0));
      if (isFirst) [best, at] = [o, k];
    }
    if (best < 0) return -1;
    out[at] = out.at(-1) ?? 0;
    out.pop();
    this.leave(best);
    return best;
  }

  clear(): void {
    for (const o of this.out) this.leave(o);
    this.out.length = 0;
    this.owed = 0;
  }

  private leave(o: number): void {
    this.isOut[o] = 0;
    this.owed -= this.owes[o] ?? 0;
    this.owes[o] = 0;
  }
}
