import type { Chance } from '#libs/chance';
import type { Layout } from './layout.js';

/** A plan laid aside: the operations in an order that respects all their ties, each with its alternative's place. */
export interface Kept {
  readonly order: Int32Array;
  readonly way: Int32Array;
  /** The operation after each on its machine. */
  readonly after: Int32Array;
  makespan: number;
}

export const emptyKept = (layout: Layout): Kept => ({
  order: new Int32Array(layout.size),
  way: new Int32Array(layout.size + 1),
  after: new Int32Array(layout.size + 1),
  makespan: Infinity,
});

/**
 * Which machine does what in which order, and what follows from it: when each operation can end at the earliest, how
 * much must still come from its start on, and an order of all operations that respects the ties of jobs and machines.
 * Every number stays exact after each move. The element reads below are all within the arrays.
 */
export class Sequences {
  readonly way: Int32Array;
  readonly machine: Int32Array;
  readonly duration: Int32Array;
  /** The operation before and after on the same machine. */
  readonly before: Int32Array;
  readonly after: Int32Array;
  readonly firstOn: Int32Array;
  /** Earliest end; and the longest way from the start of an operation to the end of all. */
  readonly end: Int32Array;
  readonly rest: Int32Array;
  readonly order: Int32Array;
  readonly place: Int32Array;
  makespan = 0;
  private readonly mark: Uint8Array;
  private readonly moved: Int32Array;
  private readonly lastOn: Int32Array;

  constructor(readonly layout: Layout) {
    const { size, machines } = layout;
    const array = (): Int32Array => new Int32Array(size + 1);
    this.way = array();
    this.machine = array().fill(-1);
    this.duration = array();
    this.before = array();
    this.after = array();
    this.firstOn = new Int32Array(machines);
    this.lastOn = new Int32Array(machines);
    this.end = array();
    this.rest = array();
    this.order = new Int32Array(size);
    this.place = array();
    this.mark = new Uint8Array(size + 1);
    this.moved = new Int32Array(size);
  }

  /** Takes over a plan laid aside. */
  load(kept: Kept): void {
    const { layout, before, after, firstOn, lastOn } = this;
    const { size } = layout;
    this.way.set(kept.way);
    this.order.set(kept.order);
    firstOn.fill(size);
    lastOn.fill(size);
    for (let at = 0; at < size; at++) {
      const operation = this.order[at] as number;
      const way = this.way[operation] as number;
      const machine = layout.machineOf[way] as number;
      const last = lastOn[machine] as number;
      this.place[operation] = at;
      this.machine[operation] = machine;
      this.duration[operation] = layout.durationOf[way] as number;
      before[operation] = last;
      after[operation] = size;
      if (last === size) firstOn[machine] = operation;
      else after[last] = operation;
      lastOn[machine] = operation;
    }
    this.measureEnds(0);
    this.measureRests(size - 1);
  }

  save(into: Kept): void {
    into.order.set(this.order);
    into.way.set(this.way);
    into.after.set(this.after);
    into.makespan = this.makespan;
  }

  /** Earliest ends from a place of the order on. */
  private measureEnds(from: number): void {
    const { end, order, before, duration } = this;
    const { size, jobBefore, lastOfJob } = this.layout;
    for (let at = from; at < size; at++) {
      const operation = order[at] as number;
      const byJob = end[jobBefore[operation] as number] as number;
      const byMachine = end[before[operation] as number] as number;
      end[operation] = (byJob > byMachine ? byJob : byMachine) + (duration[operation] as number);
    }
    let latest = 0;
    for (let job = 0; job < lastOfJob.length; job++) {
      const ended = end[lastOfJob[job] as number] as number;
      if (ended > latest) latest = ended;
    }
    this.makespan = latest;
  }

  private measureRests(from: number): void {
    const { rest, order, after, duration } = this;
    const { jobAfter } = this.layout;
    for (let at = from; at >= 0; at--) {
      const operation = order[at] as number;
      const byJob = rest[jobAfter[operation] as number] as number;
      const byMachine = rest[after[operation] as number] as number;
      rest[operation] = (byJob > byMachine ? byJob : byMachine) + (duration[operation] as number);
    }
  }

  unlink(operation: number): void {
    const { size } = this.layout;
    const a = this.before[operation] as number;
    const b = this.after[operation] as number;
    if (a === size) this.firstOn[this.machine[operation] as number] = b;
    else this.after[a] = b;
    if (b !== size) this.before[b] = a;
  }

  private link(operation: number, way: number, a: number): void {
    const { layout, after, before } = this;
    const { size } = layout;
    const machine = layout.machineOf[way] as number;
    const b = (a === size ? this.firstOn[machine] : after[a]) as number;
    this.way[operation] = way;
    this.machine[operation] = machine;
    this.duration[operation] = layout.durationOf[way] as number;
    before[operation] = a;
    after[operation] = b;
    if (a === size) this.firstOn[machine] = operation;
    else after[a] = operation;
    if (b !== size) before[b] = operation;
  }

  /**
   * Puts an operation, by one of its ways, right after `a` on the way's machine (first of all where `a` is none).
   * False, and nothing changed, when that would make operations wait for each other in a circle.
   */
  move(operation: number, way: number, a: number): boolean {
    const { size } = this.layout;
    const oldWay = this.way[operation] as number;
    const oldBefore = this.before[operation] as number;
    this.unlink(operation);
    this.link(operation, way, a);
    const b = this.after[operation] as number;
    const at = this.place[operation] as number;
    let low = at;
    let high = at;
    let isRight = true;
    if (a !== size && (this.place[a] as number) > at) {
      high = this.place[a] as number;
      isRight = this.delay(at, high);
    } else if (b !== size && (this.place[b] as number) < at) {
      low = this.place[b] as number;
      isRight = this.advance(low, at);
    }
    if (!isRight) {
      this.unlink(operation);
      this.link(operation, oldWay, oldBefore);
      return false;
    }
    this.measureEnds(low);
    this.measureRests(high);
    return true;
  }

  /** Brings the operation at `low`, and what follows from it, behind the one at `high`; false in a circle. */
  private delay(low: number, high: number): boolean {
    const { order, place, mark, moved, before } = this;
    const { jobBefore } = this.layout;
    mark[order[low] as number] = 1;
    let count = 1;
    moved[0] = order[low] as number;
    for (let at = low + 1; at <= high; at++) {
      const operation = order[at] as number;
      if (mark[jobBefore[operation] as number] === 1 || mark[before[operation] as number] === 1) {
        mark[operation] = 1;
        moved[count++] = operation;
      }
    }
    const isRight = mark[order[high] as number] === 0;
    if (isRight) {
      let to = low;
      for (let at = low; at <= high; at++) {
        const operation = order[at] as number;
        if (mark[operation] === 1) continue;
        order[to] = operation;
        place[operation] = to++;
      }
      for (let at = 0; at < count; at++) {
        const operation = moved[at] as number;
        order[to] = operation;
        place[operation] = to++;
      }
    }
    for (let at = 0; at < count; at++) mark[moved[at] as number] = 0;
    return isRight;
  }

  /** Brings the operation at `high`, and what it waits for, before the one at `low`; false in a circle. */
  private advance(low: number, high: number): boolean {
    const { order, place, mark, moved, after } = this;
    const { jobAfter } = this.layout;
    mark[order[high] as number] = 1;
    let count = 1;
    moved[0] = order[high] as number;
    for (let at = high - 1; at >= low; at--) {
      const operation = order[at] as number;
      if (mark[jobAfter[operation] as number] === 1 || mark[after[operation] as number] === 1) {
        mark[operation] = 1;
        moved[count++] = operation;
      }
    }
    const isRight = mark[order[low] as number] === 0;
    if (isRight) {
      let to = high;
      for (let at = high; at >= low; at--) {
        const operation = order[at] as number;
        if (mark[operation] === 1) continue;
        order[to] = operation;
        place[operation] = to--;
      }
      for (let at = 0; at < count; at++) {
        const operation = moved[at] as number;
        order[to] = operation;
        place[operation] = to--;
      }
    }
    for (let at = 0; at < count; at++) mark[moved[at] as number] = 0;
    return isRight;
  }

  /** Writes one of the longest chains, picked by chance, from its start to its end; returns how long it is. */
  criticalPath(into: Int32Array, chance: Chance): number {
    const { end, rest, duration, after, makespan } = this;
    const { size, firstOfJob, jobAfter } = this.layout;
    let at = size;
    let seen = 0;
    for (let job = 0; job < firstOfJob.length; job++) {
      const operation = firstOfJob[job] as number;
      if (end[operation] !== duration[operation] || rest[operation] !== makespan) continue;
      if (chance.below(++seen) === 0) at = operation;
    }
    let count = 0;
    while (at !== size) {
      into[count++] = at;
      const left = makespan - (end[at] as number);
      const byJob = jobAfter[at] as number;
      const byMachine = after[at] as number;
      const viaJob = byJob !== size && rest[byJob] === left;
      const viaMachine = byMachine !== size && rest[byMachine] === left;
      if (viaJob && viaMachine) at = chance.below(2) === 0 ? byJob : byMachine;
      else if (viaJob) at = byJob;
      else if (viaMachine) at = byMachine;
      else at = size;
    }
    return count;
  }
}
