import type { PlanModel } from './plan-model.js';
import { rowsOf } from './rows.js';
import type { Rows } from './rows.js';

/** Views of one memory, so that whatever is written can be taken back by one log. */
interface Views {
  /** The operations, each after all that it waits for, and where each stands. */
  readonly order: Int32Array;
  readonly position: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly crew: Int32Array;
  /** The resource that each use is of, and the uses of it before and after. */
  readonly resource: Int32Array;
  readonly before: Int32Array;
  readonly after: Int32Array;
  readonly lastUse: Int32Array;
  /** The bay of each hold, and the holds in it before and after. */
  readonly holdBay: Int32Array;
  readonly holdBefore: Int32Array;
  readonly holdAfter: Int32Array;
  readonly lastHold: Int32Array;
  readonly orderReady: Int32Array;
}

const LOG_SIZE = 1 << 17;

/** Which operations use a car that others of the same car use at times that nothing but the car itself keeps apart. */
function carsInTwoPlaces(model: PlanModel): Uint8Array {
  const needs = new Uint8Array(model.orders);
  for (let order = 0; order < model.orders; order++) {
    const [first, end] = [model.orderFirst[order] ?? 0, model.orderEnd[order] ?? 0];
    const reach = model.reach[order] ?? new Uint8Array(0);
    const size = end - first;
    for (let a = 0; a < size; a++)
      for (let b = 0; b < a; b++) {
        const isBoth = (model.hold[first + a] ?? -1) >= 0 && (model.hold[first + b] ?? -1) >= 0;
        if (isBoth && reach[a * size + b] !== 1 && reach[b * size + a] !== 1) needs[order] = 1;
      }
  }
  return needs;
}

/** Where the sequences of a plan stand, and a log of what was written, so that it can be taken back. */
export class SequenceMemory {
  readonly mem: Int32Array;
  readonly at: Views;
  /** The uses of operation o stand from `useFirst[o]`: who leads, who helps, tools, the car. */
  readonly useFirst: Int32Array;
  readonly useOwner: Int32Array;
  /** How many of them are people: none for work whose people are kept free for it. */
  readonly people: Uint8Array;
  readonly members: Rows;
  /** The hold of each operation, -1 where the bay is kept free for it. */
  readonly hold: Int32Array;
  readonly isFree: Uint8Array;
  /** Operations that stood elsewhere, or with somebody else, before the change; their uses are to be entered anew. */
  readonly moved: Int32Array;
  movedCount = 0;
  /** Operations of which something that they wait for is another now; what is not free is so always and never timed. */
  readonly isDirty: Uint8Array;
  dirtyCount = 0;
  firstDirty = 0;
  protected readonly isMoved: Uint8Array;
  protected readonly rehold: Int32Array;
  protected reholdCount = 0;
  protected readonly isReheld: Uint8Array;
  /** Where each view begins in the memory. */
  readonly base: Readonly<Record<keyof Views, number>>;
  private readonly log = new Int32Array(LOG_SIZE);
  private logged = 0;
  protected readonly held: Int32Array;

  constructor(
    readonly model: PlanModel,
    readonly free: readonly number[],
  ) {
    const n = model.operations;
    this.isFree = new Uint8Array(n);
    for (const o of free) this.isFree[o] = 1;
    this.hold = Int32Array.from(model.hold, (hold, o) => (model.reserved[o] === 1 ? -1 : hold));
    const lists: number[][] = Array.from({ length: model.holds }, () => []);
    this.hold.forEach((hold, o) => lists[hold]?.push(o));
    this.members = rowsOf(lists);
    this.people = Uint8Array.from({ length: n }, (_, o) => {
      if (this.isFree[o] !== 1 || model.reserved[o] === 1) return 0;
      return (model.crewHelper[model.crewFirst[o] ?? 0] ?? -1) >= 0 ? 2 : 1;
    });
    const needsCar = carsInTwoPlaces(model);
    this.useFirst = new Int32Array(n + 1);
    for (let o = 0; o < n; o++) {
      const tools = (model.toolKinds.first[o + 1] ?? 0) - (model.toolKinds.first[o] ?? 0);
      const car = (this.hold[o] ?? -1) >= 0 ? (needsCar[model.order[o] ?? 0] ?? 0) : 0;
      const count = this.isFree[o] === 1 ? (this.people[o] ?? 0) + tools + car : 0;
      this.useFirst[o + 1] = (this.useFirst[o] ?? 0) + count;
    }
    const uses = this.useFirst[n] ?? 0;
    this.useOwner = new Int32Array(uses);
    for (let o = 0; o < n; o++) this.useOwner.fill(o, this.useFirst[o], this.useFirst[o + 1]);
    const sizes: Record<keyof Views, number> = {
      ...{ order: free.length, position: n, start: n, end: n, crew: n },
      ...{ resource: uses, before: uses, after: uses, lastUse: model.resources },
      ...{ holdBay: model.holds, holdBefore: model.holds, holdAfter: model.holds, lastHold: model.bays },
      orderReady: model.orders,
    };
    const names = Object.keys(sizes) as (keyof Views)[];
    const offset: Partial<Record<keyof Views, number>> = {};
    let size = 0;
    for (const name of names) {
      offset[name] = size;
      size += sizes[name];
    }
    this.mem = new Int32Array(size);
    this.base = offset as Record<keyof Views, number>;
    const view = (name: keyof Views): Int32Array =>
      this.mem.subarray(this.base[name], this.base[name] + sizes[name]);
    this.at = Object.fromEntries(names.map((name) => [name, view(name)])) as unknown as Views;
    this.isDirty = this.isFree.map((isFree) => 1 - isFree);
    [this.moved, this.isMoved] = [new Int32Array(n), new Uint8Array(n)];
    [this.rehold, this.isReheld] = [new Int32Array(model.holds), new Uint8Array(model.holds)];
    this.held = new Int32Array(n);
  }

  /** Writes through the log. */
  write(place: number, value: number): void {
    const { mem, log } = this;
    const was = mem[place] ?? 0;
    if (was === value) return;
    log[this.logged++] = place;
    log[this.logged++] = was;
    mem[place] = value;
  }

  /** Whether the log has no room for another change: it is given up then. */
  get isFull(): boolean {
    return this.logged > LOG_SIZE / 2;
  }

  /** What was done so far stays. */
  keep(): void {
    this.logged = 0;
  }

  /** Takes back what was written since `keep`. */
  undo(): void {
    const { mem, log } = this;
    for (let k = this.logged - 2; k >= 0; k -= 2) mem[log[k] ?? 0] = log[k + 1] ?? 0;
    this.logged = 0;
  }

  /** When a resource is done with what it is used for before an operation's place in the order. */
  freeBefore(own: number, o: number): number {
    const { before, position, lastUse, end } = this.at;
    const place = position[o] ?? 0;
    let prev = lastUse[own] ?? -1;
    while (prev >= 0 && (position[this.useOwner[prev] ?? 0] ?? 0) >= place) prev = before[prev] ?? -1;
    return prev < 0 ? 0 : (end[this.useOwner[prev] ?? 0] ?? 0);
  }

  /** The first position of a hold's operations; -1 when its car came in before. */
  opens(hold: number): number {
    const { first, item } = this.members;
    let least = this.at.order.length;
    const last = first[hold + 1] ?? 0;
    for (let k = first[hold] ?? 0; k < last; k++) {
      const place = this.at.position[item[k] ?? 0] ?? -1;
      if (place < least) least = place;
    }
    return least;
  }

  closes(hold: number): number {
    const { first, item } = this.members;
    let most = -1;
    const last = first[hold + 1] ?? 0;
    for (let k = first[hold] ?? 0; k < last; k++) {
      const place = this.at.position[item[k] ?? 0] ?? -1;
      if (place > most) most = place;
    }
    return most;
  }

  /** When a hold is over. */
  holdEnd(hold: number): number {
    const { first, item } = this.members;
    let latest = 0;
    const last = first[hold + 1] ?? 0;
    for (let k = first[hold] ?? 0; k < last; k++) {
      const end = this.at.end[item[k] ?? 0] ?? 0;
      if (end > latest) latest = end;
    }
    return latest;
  }
}
