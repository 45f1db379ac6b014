import type { Draft } from './draft.js';
import { GUIDE, HARD } from './draft.js';
import { FAR } from './far.js';
import type { Placer } from './placer.js';

/** How a rule weighs what it chooses by. */
export interface DispatchRule {
  /** From 0 (what can start first) to 1 (what must start first). */
  readonly urgency: number;
  /** Minutes by which a repair order of weight 2, 3, … is preferred for each step of its weight. */
  readonly weight: number;
  /** Minutes by which the rest of a car that is apart is preferred. */
  readonly apart: number;
}

export const RULES: readonly DispatchRule[] = [
  { urgency: 0.5, weight: 60, apart: 120 },
  { urgency: 0.2, weight: 30, apart: 60 },
  { urgency: 0.1, weight: 0, apart: 0 },
  { urgency: 0.5, weight: 240, apart: 0 },
  { urgency: 0.8, weight: 120, apart: 480 },
  { urgency: 0.3, weight: 480, apart: 240 },
  { urgency: 0.05, weight: 120, apart: 120 },
  { urgency: 0.8, weight: 480, apart: 0 },
];
/** What nobody waits for counts as if it were promised so long after its parts are there: a month. */
const UNPROMISED = 43_200;

/** Operations that may be done by the same crews, or in the same bays, and when the first of these is free. */
interface Classes {
  readonly of: Int32Array;
  readonly free: Int32Array;
  /** The members of a class: crews or bays. */
  readonly members: readonly (readonly number[])[];
  /** The classes that have a technician or bay. */
  readonly classesOf: readonly (readonly number[])[];
}

function classesOf(
  lists: readonly (readonly number[])[],
  partsOf: (member: number) => readonly number[],
  parts: number,
): Classes {
  const known = new Map<string, number>();
  const members: (readonly number[])[] = [];
  const keyOf = (list: readonly number[]): string => list.map((one) => partsOf(one).join('+')).join();
  const of = Int32Array.from(lists, (list) => {
    const key = keyOf(list);
    const index = known.get(key) ?? members.length;
    if (!known.has(key)) members.push(list);
    known.set(key, index);
    return index;
  });
  const having = Array.from({ length: parts }, (_, part) =>
    members.flatMap((list, index) => (list.some((one) => partsOf(one).includes(part)) ? [index] : [])),
  );
  return { of, free: new Int32Array(members.length), members, classesOf: having };
}

/**
 * Serial schedule generation: of the operations that could start before the first of them would be over, the one with
 * the least score (when it could start, and its own key, as the rule weighs them) is placed next.
 */
export class Dispatcher {
  readonly keys: Float64Array;
  rule: DispatchRule;
  private readonly crews: Classes;
  private readonly bays: Classes;
  private readonly latest: Float64Array;
  private readonly missing: Int32Array;
  private readonly missingAtStart: Int32Array;
  private readonly ready: Int32Array;
  private readonly readyTime: Int32Array;
  private readonly soon: Int32Array;
  private readonly parked: Int32Array;
  private count = 0;
  private readonly start: readonly number[];

  constructor(
    private readonly placer: Placer,
    free: readonly number[],
  ) {
    const { model } = placer;
    const n = model.operations;
    this.rule = RULES[0] ?? { urgency: 0.5, weight: 0, apart: 0 };
    this.keys = new Float64Array(n);
    const range = (first: Int32Array, i: number): number[] =>
      Array.from({ length: (first[i + 1] ?? 0) - (first[i] ?? 0) }, (_, k) => (first[i] ?? 0) + k);
    const crewLists = Array.from({ length: n }, (_, o) => range(model.crewFirst, o));
    const people = (crew: number): number[] =>
      [model.crewLead[crew] ?? 0, model.crewHelper[crew] ?? -1].filter((one) => one >= 0);
    this.crews = classesOf(crewLists, people, model.technicians);
    const bayLists = Array.from({ length: model.holds }, (_, hold) =>
      range(model.holdBays.first, hold)
        .map((k) => model.holdBays.item[k] ?? 0)
        .sort((a, b) => a - b),
    );
    this.bays = classesOf(bayLists, (bay) => [bay], model.bays);
    this.latest = Float64Array.from({ length: n }, (_, o) => {
      const due = model.due[model.order[o] ?? 0] ?? 0;
      const least = (model.tail[o] ?? 0) + (model.shortest[o] ?? 0);
      return (due >= FAR ? (model.release[o] ?? 0) + UNPROMISED : due) - least;
    });
    this.missingAtStart = new Int32Array(n);
    const isFree = new Uint8Array(n);
    for (const o of free) isFree[o] = 1;
    const start: number[] = [];
    for (const o of free) {
      const before = range(model.before.first, o).filter((k) => isFree[model.before.item[k] ?? 0] === 1);
      this.missingAtStart[o] = before.length;
      if (before.length === 0) start.push(o);
    }
    for (let o = 0; o < n; o++) if (isFree[o] === 0) this.missingAtStart[o] = FAR;
    this.start = start;
    this.missing = new Int32Array(n);
    this.ready = new Int32Array(n);
    this.readyTime = new Int32Array(n);
    this.soon = new Int32Array(n);
    this.parked = new Int32Array(n);
  }

  /** Sets the rule, with all keys as it has them. */
  follow(rule: DispatchRule): void {
    const { model } = this.placer;
    this.rule = rule;
    for (let o = 0; o < this.keys.length; o++) {
      const weight = model.problem.repairOrders[model.order[o] ?? 0]?.weight ?? 1;
      this.keys[o] = rule.urgency * ((this.latest[o] ?? 0) - rule.weight * (weight - 1));
    }
  }

  /** Places everything; false when it was given up because it costs more than `limit`. */
  run(draft: Draft, keys: Float64Array, limit: number): boolean {
    this.placer.clear();
    for (let tries = 0; tries < 200; tries++) {
      const done = this.runOnce(draft, keys, limit);
      if (done !== null) return done;
    }
    return false;
  }

  /** Null when the bay of a teardown turned out to be closed before its end; it is known then. */
  private runOnce(draft: Draft, keys: Float64Array, limit: number): boolean | null {
    const { placer } = this;
    const { model, cost } = placer;
    placer.reset();
    this.missing.set(this.missingAtStart);
    this.parked.fill(-1);
    this.count = 0;
    this.refreshAll();
    for (const o of this.start) this.enter(draft, o);
    let placed = 0;
    while (this.count > 0) {
      const at = this.next(draft, keys, placed);
      if (at < 0) break;
      const o = this.ready[at] ?? 0;
      const done = placer.put(draft, o);
      if (done === 2) return null;
      if (done === 1) {
        this.parked[o] = placed;
        continue;
      }
      this.ready.copyWithin(at, at + 1, this.count--);
      draft.order[placed++] = o;
      this.refresh(draft, o);
      const { first, item } = model.after;
      const last = first[o + 1] ?? 0;
      for (let k = first[o] ?? 0; k < last; k++) {
        const next = item[k] ?? 0;
        const missing = (this.missing[next] ?? 0) - 1;
        this.missing[next] = missing;
        if (missing === 0) this.enter(draft, next);
      }
      if ((cost[HARD] ?? 0) + (cost[GUIDE] ?? 0) > limit) return false;
    }
    this.leaveOut(draft, placed);
    draft.cost.set(cost);
    return (cost[HARD] ?? 0) + (cost[GUIDE] ?? 0) <= limit;
  }

  /** What never could be brought in. */
  private leaveOut(draft: Draft, from: number): void {
    let placed = from;
    while (this.count > 0) {
      const o = this.ready[--this.count] ?? 0;
      this.placer.leaveOut(draft, o);
      draft.order[placed++] = o;
      const { first, item } = this.placer.model.after;
      for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) {
        const next = item[k] ?? 0;
        this.missing[next] = (this.missing[next] ?? 0) - 1;
        if (this.missing[next] === 0) this.enter(draft, next);
      }
    }
  }

  /** What is ready stands in the order of the times from which on it could start. */
  private enter(draft: Draft, o: number): void {
    const { ready, readyTime } = this;
    const pin = this.placer.model.pinStart[o] ?? -1;
    const asked = this.placer.readyAt(draft, o);
    const time = pin > asked ? pin : asked;
    readyTime[o] = time;
    let at = this.count++;
    for (; at > 0 && (readyTime[ready[at - 1] ?? 0] ?? 0) > time; at--) ready[at] = ready[at - 1] ?? 0;
    ready[at] = o;
  }

  private next(draft: Draft, keys: Float64Array, placed: number): number {
    const { ready, soon, readyTime } = this;
    const { shortest } = this.placer.model;
    let first = FAR;
    let count = 0;
    for (; count < this.count; count++) {
      const o = ready[count] ?? 0;
      if ((readyTime[o] ?? 0) >= first) break;
      const start = this.soonest(draft, o, placed);
      soon[count] = start;
      const end = start + (shortest[o] ?? 0);
      if (end < first) first = end;
    }
    const { urgency, apart } = this.rule;
    const { several, hold } = this.placer.model;
    const { state, shape } = this.placer;
    let best = -1;
    let score = Infinity;
    for (let k = 0; k < count; k++) {
      const start = soon[k] ?? 0;
      if (start >= first) continue;
      const o = ready[k] ?? 0;
      let own = (1 - urgency) * start + (keys[o] ?? 0);
      const teardown = several[hold[o] ?? -1] ?? -1;
      if (teardown >= 0 && (state[shape.severalBay + teardown] ?? -1) >= 0) own -= apart;
      if (own < score) {
        best = k;
        score = own;
      }
    }
    return best;
  }

  private soonest(draft: Draft, o: number, placed: number): number {
    const { model, state, shape } = this.placer;
    if (this.parked[o] === placed) return FAR;
    let start = this.readyTime[o] ?? 0;
    const hold = model.hold[o] ?? -1;
    if (hold >= 0) {
      const order = model.order[o] ?? 0;
      const car = state[model.car0 + order] ?? 0;
      if (car > start) start = car;
      const several = model.several[hold] ?? -1;
      const isIn = several >= 0 && (state[shape.severalBay + several] ?? -1) >= 0;
      if (!isIn && model.reserved[o] !== 1) {
        const bay =
          (state[shape.carHold + order] ?? -1) >= 0
            ? this.placer.nested(o, hold)
            : (this.bays.free[this.bays.of[hold] ?? 0] ?? 0);
        if (bay > start) start = bay;
      }
    }
    if (model.reserved[o] === 1) return start;
    const wish = draft.wish[o] ?? -1;
    const crew = wish >= 0 ? this.placer.crewFree(wish) : (this.crews.free[this.crews.of[o] ?? 0] ?? 0);
    return crew > start ? crew : start;
  }

  private refreshAll(): void {
    for (let c = 0; c < this.crews.members.length; c++) this.refreshCrews(c);
    for (let c = 0; c < this.bays.members.length; c++) this.refreshBays(c);
  }

  private refresh(draft: Draft, o: number): void {
    const { model } = this.placer;
    const crew = draft.crew[o] ?? -1;
    if (crew >= 0) {
      for (const index of this.crews.classesOf[model.crewLead[crew] ?? 0] ?? []) this.refreshCrews(index);
      const helper = model.crewHelper[crew] ?? -1;
      if (helper >= 0) for (const index of this.crews.classesOf[helper] ?? []) this.refreshCrews(index);
    }
    const bay = draft.bay[o] ?? -1;
    if (bay >= 0) for (const index of this.bays.classesOf[bay] ?? []) this.refreshBays(index);
  }

  private refreshCrews(index: number): void {
    let first = FAR;
    for (const crew of this.crews.members[index] ?? []) {
      const free = this.placer.crewFree(crew);
      if (free < first) first = free;
    }
    this.crews.free[index] = first;
  }

  private refreshBays(index: number): void {
    const { state, shape, model } = this.placer;
    let first = FAR;
    for (const bay of this.bays.members[index] ?? []) {
      if ((state[shape.holder + bay] ?? -1) >= 0) continue;
      const free = state[model.bay0 + bay] ?? 0;
      if (free < first) first = free;
    }
    this.bays.free[index] = first;
  }
}
