import type { Member } from './member.js';
import type { ProjectModel } from './project-model.js';

/** Makes lists from others. Lists stay free of activities that stand before one they wait for. */
export class Crossing {
  private readonly isTaken: Uint8Array;
  private readonly keys: Float64Array;
  private readonly waits: Int32Array;
  private readonly ready: Int32Array;
  /** Twice the longest chain: what it takes to bring any two activities into either order. */
  private readonly spread: number;

  constructor(
    private readonly model: ProjectModel,
    private readonly chance: () => number,
  ) {
    this.isTaken = new Uint8Array(model.size);
    this.keys = new Float64Array(model.size);
    this.waits = new Int32Array(model.size);
    this.ready = new Int32Array(model.size);
    const chains = Array.from(model.tail, (tail, at) => tail + (model.head[at] ?? 0));
    this.spread = 1 + 2 * chains.reduce((longest, chain) => Math.max(longest, chain), 0);
  }

  private cuts(): [number, number] {
    const one = Math.floor(this.chance() * (this.model.size + 1));
    const other = Math.floor(this.chance() * (this.model.size + 1));
    return one < other ? [one, other] : [other, one];
  }

  /** Both ends of one parent, between them what is left in the order of the other (two-point: Hartmann 1998). */
  endsOf(mother: Member, father: Member, child: Member): void {
    const [from, to] = this.cuts();
    this.isTaken.fill(0);
    for (let at = 0; at < from; at++) this.take(child, at, mother.list[at] ?? 0, mother);
    this.fill(child, from, to, father);
    this.fill(child, to, this.model.size, mother);
  }

  /** The middle of one parent stays; what stands before and behind it takes the order of the other. */
  middleOf(mother: Member, father: Member, child: Member): void {
    const [from, to] = this.cuts();
    const { isTaken } = this;
    const { size } = this.model;
    isTaken.fill(1);
    for (let at = 0; at < from; at++) isTaken[mother.list[at] ?? 0] = 0;
    this.fill(child, 0, from, father);
    for (let at = from; at < to; at++) this.take(child, at, mother.list[at] ?? 0, mother);
    for (let at = to; at < size; at++) isTaken[mother.list[at] ?? 0] = 0;
    this.fill(child, to, size, father);
  }

  private take(child: Member, place: number, activity: number, from: Member): void {
    child.list[place] = activity;
    child.modes[activity] = from.modes[activity] ?? 0;
    this.isTaken[activity] = 1;
  }

  private fill(child: Member, from: number, to: number, parent: Member): void {
    let place = from;
    for (let at = 0; place < to && at < this.model.size; at++) {
      const activity = parent.list[at] ?? 0;
      if (this.isTaken[activity] === 0) this.take(child, place++, activity, parent);
    }
  }

  /** Exchanges neighbours here and there. */
  shuffle(child: Member, rate: number): void {
    const { list } = child;
    const { first, at: next } = this.model.successors;
    for (let place = 0; place + 1 < list.length; place++) {
      if (this.chance() >= rate) continue;
      const one = list[place] ?? 0;
      const other = list[place + 1] ?? 0;
      const isBound = next.subarray(first[one] ?? 0, first[one + 1] ?? 0).includes(other);
      if (isBound) continue;
      list[place] = other;
      list[place + 1] = one;
    }
  }

  /** Lists anew the activities that start within a stretch of time; the rest keeps its place. */
  loosen(parent: Member, child: Member, stretch: number): void {
    const { makespan, starts } = parent;
    const from = Math.floor(this.chance() * (makespan + stretch)) - stretch;
    for (let at = 0; at < this.model.size; at++) {
      const start = starts[at] ?? 0;
      const isLoose = start >= from && start < from + stretch;
      this.keys[at] = start + (isLoose ? (this.chance() - 0.5) * stretch : 0);
    }
    child.modes.set(parent.modes);
    this.listByKeys(child.list);
  }

  /** A list by chance: mostly what has much behind it first; `noise` from 0 up. */
  fresh(child: Member, noise: number): void {
    const { size, tail, firstMode } = this.model;
    for (let at = 0; at < size; at++) {
      const first = firstMode[at] ?? 0;
      child.modes[at] = first + Math.floor(this.chance() * ((firstMode[at + 1] ?? 0) - first));
      this.keys[at] = -(tail[at] ?? 0) + noise * this.spread * (this.chance() - 0.5);
    }
    this.listByKeys(child.list);
  }

  /** The list that always takes the lowest key among those that wait for nothing more. */
  private listByKeys(list: Int32Array): void {
    const { waits, ready, keys } = this;
    const { first, at: next } = this.model.successors;
    const { first: firstBefore } = this.model.predecessors;
    let count = 0;
    for (let at = 0; at < this.model.size; at++) {
      waits[at] = (firstBefore[at + 1] ?? 0) - (firstBefore[at] ?? 0);
      if (waits[at] === 0) ready[count++] = at;
    }
    for (let place = 0; place < list.length; place++) {
      let best = 0;
      for (let index = 1; index < count; index++) {
        if ((keys[ready[index] ?? 0] ?? 0) < (keys[ready[best] ?? 0] ?? 0)) best = index;
      }
      const activity = ready[best] ?? 0;
      ready[best] = ready[--count] ?? 0;
      list[place] = activity;
      for (let index = first[activity] ?? 0; index < (first[activity + 1] ?? 0); index++) {
        const behind = next[index] ?? 0;
        waits[behind] = (waits[behind] ?? 0) - 1;
        if (waits[behind] === 0) ready[count++] = behind;
      }
    }
  }
}
