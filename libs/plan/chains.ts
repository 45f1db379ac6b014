import type { Draft } from './draft.js';
import { FAR } from './far.js';
import type { PlanModel } from './plan-model.js';

/** How far back it is looked for what an operation waits for. */
const LOOK_BACK = 400;
/** What a minute of being ready only just before the promised time (`PlanModel.near`) counts, for one of lateness. */
export const NEAR_RATE = 0.05;

/** Which repair orders of a draft are late, and what waits for what. */
export class Chains {
  /** The operation with which each repair order ends, -1 when nothing of it can be placed. */
  readonly sink: Int32Array;
  lateSum = 0;
  private readonly late: Float64Array;

  constructor(
    private readonly model: PlanModel,
    private readonly free: readonly number[],
    private readonly random: () => number,
  ) {
    this.sink = new Int32Array(model.orders);
    this.late = new Float64Array(model.orders);
  }

  /** Looks at a draft. */
  aim(draft: Draft): void {
    const { model, late, sink } = this;
    sink.fill(-1);
    for (const o of this.free) {
      const order = model.order[o] ?? 0;
      const before = sink[order] ?? -1;
      if (before < 0 || (draft.end[o] ?? 0) > (draft.end[before] ?? 0)) sink[order] = o;
    }
    this.lateSum = 0;
    for (let order = 0; order < model.orders; order++) {
      const last = sink[order] ?? -1;
      late[order] = 0;
      if (last < 0) continue;
      const over = Math.min(draft.end[last] ?? 0, FAR) - (model.due[order] ?? 0);
      const near = over + model.near;
      const weight = model.weight[order] ?? 0;
      late[order] = weight * (Math.max(0, over) + NEAR_RATE * Math.max(0, near));
      this.lateSum += late[order] ?? 0;
    }
  }

  /** A repair order that is late or nearly so, the worse the likelier; -1 when there is none. */
  pickLate(): number {
    let left = this.random() * this.lateSum;
    for (let order = 0; order < this.model.orders; order++) {
      left -= this.late[order] ?? 0;
      if (left <= 0 && (this.late[order] ?? 0) > 0) return order;
    }
    return -1;
  }

  /** The free operation whose end an operation waited for longest, -1 when it is none of them. */
  causeOf(draft: Draft, o: number): number {
    const { model } = this;
    const start = draft.start[o] ?? -1;
    if (start < 0) return -1;
    let cause = -1;
    let latest = Math.max(model.release[o] ?? 0, draft.from[o] ?? 0);
    for (let k = model.before.first[o] ?? 0; k < (model.before.first[o + 1] ?? 0); k++) {
      const earlier = model.before.item[k] ?? 0;
      if ((draft.end[earlier] ?? 0) <= latest || (draft.position[earlier] ?? -1) < 0) continue;
      cause = earlier;
      latest = draft.end[earlier] ?? 0;
    }
    const at = draft.position[o] ?? 0;
    const stop = Math.max(0, at - LOOK_BACK);
    for (let k = at - 1; k >= stop; k--) {
      const other = draft.order[k] ?? 0;
      const end = draft.end[other] ?? 0;
      if (end <= latest || end > start || !this.shares(draft, o, other)) continue;
      cause = other;
      latest = end;
    }
    return cause;
  }

  /** Whether two operations use the same person, bay, car or tool. */
  private shares(draft: Draft, o: number, other: number): boolean {
    const { crewLead, crewHelper, order } = this.model;
    const bay = draft.bay[o] ?? -1;
    if (bay >= 0 && (draft.bay[other] === bay || order[o] === order[other])) return true;
    const [crew, crewOther] = [draft.crew[o] ?? 0, draft.crew[other] ?? 0];
    const lead = crewLead[crew] ?? -1;
    if (lead === crewLead[crewOther] || lead === crewHelper[crewOther]) return true;
    const helper = crewHelper[crew] ?? -1;
    if (helper >= 0 && (helper === crewLead[crewOther] || helper === crewHelper[crewOther])) return true;
    const { first } = this.model.toolKinds;
    for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++)
      for (let j = first[other] ?? 0; j < (first[other + 1] ?? 0); j++)
        if (draft.unit[k] === draft.unit[j]) return true;
    return false;
  }
}
