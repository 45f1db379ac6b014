import type { PlanModel } from './plan-model.js';
import { SequenceInsertions } from './sequence-insertions.js';
import { SequenceStays } from './sequence-stays.js';
import type { SequenceStore } from './sequence-store.js';
import type { SequenceTimes } from './sequence-times.js';

/** How far a chain of causes is followed: the work of a week, one after the other. */
const STEPS = 16;

/** How likely each kind of change is, summed up. */
const KINDS = { chain: 0.65, order: 0.77, some: 0.92, crew: 1 };

/** What is done about something that waits for something else, summed up. */
const ACTS = {
  before: 0.4,
  crew: 0.55,
  otherCrew: 0.65,
  behind: 0.75,
  bay: 0.85,
  orderBehind: 0.95,
  sooner: 1,
};

/** How likely a step along a chain of causes is the last: something is done there, or somebody else does it. */
const ON_THE_WAY = { act: 0.35, crew: 0.15, further: 0.3 };
/**
 * How often something goes where it seems to cost least; where that is something that a late repair order waits for, how
 * often each step back is the last; how often what is on a lift goes with its whole stay.
 */
const WEIGHED = { some: 0.6, late: 0.7, last: 0.2, stay: 0.4 };
/** How often the crew is chosen that is free first, and the minutes of chance by which another may pass for it. */
const SOONEST = 0.5;
const PASSED_OVER = 120;

/**
 * Changes sequences a little. Most changes begin at a repair order that is late: from its end back along what waits for
 * what, until something is found that could go sooner, elsewhere or with somebody else.
 */
export class SequenceMoves {
  private readonly model: PlanModel;
  private readonly late: Float64Array;
  /** How often something goes where it seems to cost least, instead of by chance. */
  weighed = WEIGHED.some;
  private lateSum = 0;
  private readonly insertions: SequenceInsertions;
  private readonly stays: SequenceStays;

  constructor(
    private readonly store: SequenceStore,
    private readonly times: SequenceTimes,
    private readonly random: () => number,
  ) {
    this.model = store.model;
    this.late = new Float64Array(store.model.orders);
    this.stays = new SequenceStays(store, times, random);
    this.insertions = new SequenceInsertions(store, times, random);
  }

  /** Looks anew at which repair orders are late. */
  aim(): void {
    const { model, late, times } = this;
    const { orderReady } = this.store.at;
    this.lateSum = 0;
    for (let order = 0; order < model.orders; order++) {
      const cost = times.lateCost(order, orderReady[order] ?? 0);
      late[order] = cost;
      this.lateSum += cost;
    }
  }

  private below(count: number): number {
    return Math.floor(this.random() * count);
  }

  private pickLate(): number {
    let left = this.random() * this.lateSum;
    for (let order = 0; order < this.model.orders; order++) {
      const own = this.late[order] ?? 0;
      left -= own;
      if (left <= 0 && own > 0) return order;
    }
    return -1;
  }

  private anyFree(): number {
    return this.store.free[this.below(this.store.free.length)] ?? 0;
  }

  change(): void {
    if (this.random() < this.weighed) {
      this.insertSome();
      return;
    }
    const dice = this.random();
    if (dice < KINDS.chain && this.lateSum > 0) this.alongTheChain();
    else if (dice < KINDS.order)
      this.shiftOrder(this.random() < 0.5 ? this.pickLate() : this.below(this.model.orders));
    else if (dice < KINDS.some) {
      const count = this.store.at.order.length;
      const o = this.anyFree();
      const wide = 1 + this.below(1 + this.below(40));
      const from = this.store.at.position[o] ?? 0;
      this.moveTo(o, this.random() < 0.5 ? Math.max(0, from - wide) : Math.min(count - 1, from + wide));
    } else this.changeCrew(this.anyFree());
  }

  /** The operation with which a repair order ends. */
  private sinkOf(order: number): number {
    const { model, store } = this;
    let sink = -1;
    const last = model.orderEnd[order] ?? 0;
    for (let o = model.orderFirst[order] ?? 0; o < last; o++)
      if (store.isFree[o] === 1 && (sink < 0 || (store.at.end[o] ?? 0) > (store.at.end[sink] ?? 0))) sink = o;
    return sink;
  }

  /** The free operation whose end an operation waits for longest, -1 when it is none of them. */
  private causeOf(o: number): number {
    const { model, store } = this;
    const { end, before, holdBefore, position } = store.at;
    let cause = -1;
    let latest = model.release[o] ?? 0;
    const lastBefore = model.before.first[o + 1] ?? 0;
    for (let k = model.before.first[o] ?? 0; k < lastBefore; k++) {
      const other = model.before.item[k] ?? 0;
      if ((end[other] ?? 0) <= latest) continue;
      latest = end[other] ?? 0;
      cause = other;
    }
    const last = store.useFirst[o + 1] ?? 0;
    for (let use = store.useFirst[o] ?? 0; use < last; use++) {
      const prev = before[use] ?? -1;
      if (prev < 0) continue;
      const other = store.useOwner[prev] ?? 0;
      if ((end[other] ?? 0) <= latest) continue;
      latest = end[other] ?? 0;
      cause = other;
    }
    const hold = store.hold[o] ?? -1;
    const prev = hold < 0 ? -1 : (holdBefore[hold] ?? -1);
    if (prev >= 0) {
      const { first, item } = store.members;
      for (let k = first[prev] ?? 0; k < (first[prev + 1] ?? 0); k++) {
        const other = item[k] ?? 0;
        if ((end[other] ?? 0) <= latest) continue;
        latest = end[other] ?? 0;
        cause = other;
      }
    }
    return cause >= 0 && (position[cause] ?? -1) < 0 ? -1 : cause;
  }

  private alongTheChain(): void {
    const { model } = this;
    const order = this.pickLate();
    let o = order < 0 ? -1 : this.sinkOf(order);
    for (let step = 0; step < STEPS && o >= 0; step++) {
      const cause = this.causeOf(o);
      const isOwn = cause >= 0 && model.order[cause] === model.order[o];
      if (cause < 0) {
        if (this.random() < 0.5) this.changeCrew(o);
        else this.moveTo(o, Math.max(0, (this.store.at.position[o] ?? 0) - 1 - this.below(20)));
        return;
      }
      if (!isOwn && this.random() < ON_THE_WAY.act) {
        this.act(o, cause);
        return;
      }
      if (isOwn && this.random() < ON_THE_WAY.crew) {
        this.changeCrew(o);
        return;
      }
      o = cause;
    }
  }

  /** Something that a late repair order waits for, or any operation, goes where it seems to cost least. */
  private insertSome(): void {
    let o = -1;
    if (this.lateSum > 0 && this.random() < WEIGHED.late) {
      const order = this.pickLate();
      o = order < 0 ? -1 : this.sinkOf(order);
      for (let step = 0; step < STEPS && o >= 0 && this.random() >= WEIGHED.last; step++) {
        const cause = this.causeOf(o);
        if (cause < 0) break;
        o = cause;
      }
    }
    if (o < 0) o = this.anyFree();
    const hold = this.store.hold[o] ?? -1;
    if (hold >= 0 && this.random() < WEIGHED.stay) this.stays.move(hold);
    else this.insertions.reinsert(o);
  }

  private isShared(o: number, other: number): boolean {
    const { crew, holdBay } = this.store.at;
    const { hold } = this.store;
    if (this.model.crewLead[crew[o] ?? 0] === this.model.crewLead[crew[other] ?? 0]) return true;
    const [one, two] = [hold[o] ?? -1, hold[other] ?? -1];
    return one >= 0 && two >= 0 && holdBay[one] === holdBay[two];
  }

  private act(o: number, cause: number): void {
    const { store } = this;
    const { position } = store.at;
    const dice = this.random();
    const at = position[o] ?? 0;
    if (dice < ACTS.before) {
      let first = cause;
      while (this.random() < ON_THE_WAY.further) {
        const next = this.causeOf(first);
        if (next < 0 || this.model.order[next] === this.model.order[o] || !this.isShared(o, next)) break;
        first = next;
      }
      this.moveTo(o, this.placeBefore(o, first));
    } else if (dice < ACTS.crew) this.changeCrew(o);
    else if (dice < ACTS.otherCrew) this.changeCrew(cause);
    else if (dice < ACTS.behind) this.moveTo(cause, Math.min(at + this.below(6), store.at.order.length - 1));
    else if (dice < ACTS.bay) this.changeBay(this.random() < 0.5 ? o : cause);
    else if (dice < ACTS.orderBehind) this.pushBehind(cause, at);
    else this.moveTo(o, Math.max(0, at - 1 - this.below(1 + this.below(40))));
  }

  /** A position from which `o` goes before `cause`: before its whole hold, when it is the bay that is wanted. */
  private placeBefore(o: number, cause: number): number {
    const { store } = this;
    const place = store.at.position[cause] ?? 0;
    const [own, hold] = [store.hold[o] ?? -1, store.hold[cause] ?? -1];
    if (own < 0 || hold < 0 || own === hold || store.at.holdBay[own] !== store.at.holdBay[hold]) return place;
    return Math.max(0, Math.min(place, store.opens(hold)));
  }

  private moveTo(o: number, to: number): void {
    if (!this.store.isFull) this.store.moveTo(o, to);
  }

  /** The repair order that stands in the way goes, from that operation on, behind a position. */
  private pushBehind(cause: number, at: number): void {
    const from = this.store.at.position[cause] ?? 0;
    this.shift(this.restOf(this.model.order[cause] ?? 0, from), at - from + this.below(20));
  }

  /** The operations of a repair order from a position on, in their order. */
  private restOf(order: number, from: number): number[] {
    const { model, store } = this;
    const mine: number[] = [];
    const last = model.orderEnd[order] ?? 0;
    for (let o = model.orderFirst[order] ?? 0; o < last; o++)
      if (store.isFree[o] === 1 && (store.at.position[o] ?? -1) >= from) mine.push(o);
    return mine.sort((a, b) => (store.at.position[a] ?? 0) - (store.at.position[b] ?? 0));
  }

  private shift(mine: number[], by: number): void {
    const { position, order } = this.store.at;
    const top = order.length - 1;
    if (by > 0) mine.reverse();
    for (const o of mine) this.moveTo(o, Math.min(top, Math.max(0, (position[o] ?? 0) + by)));
  }

  /** Moves what is left of a repair order from one of its operations on, as a whole. */
  private shiftOrder(order: number): void {
    if (order < 0) return;
    const mine = this.restOf(order, 0);
    if (mine.length === 0) return;
    const from = this.random() < 0.6 ? 0 : this.below(mine.length);
    const wide = 1 + this.below(1 + this.below(Math.min(80, this.store.at.order.length)));
    this.shift(mine.slice(from), this.random() < 0.5 ? -wide : wide);
  }

  /** Somebody else: whoever would be free first, or anybody. */
  private changeCrew(o: number): void {
    const first = this.model.crewFirst[o] ?? 0;
    const count = (this.model.crewFirst[o + 1] ?? 0) - first;
    if (count < 2 || this.store.people[o] === 0) return;
    const was = this.store.at.crew[o] ?? 0;
    let next = first + this.below(count - 1);
    if (next >= was) next++;
    if (count > 2 && this.random() < SOONEST) next = this.soonestCrew(o, was, first, first + count);
    this.store.setCrew(o, next);
  }

  /** The crew but for one that is free first where an operation stands in the order; each may be passed over. */
  private soonestCrew(o: number, was: number, first: number, last: number): number {
    const { model, store } = this;
    let best = was;
    let soonest = Infinity;
    for (let crew = first; crew < last; crew++) {
      if (crew === was) continue;
      let free = store.freeBefore(model.crewLead[crew] ?? 0, o);
      const helper = model.crewHelper[crew] ?? -1;
      if (helper >= 0) free = Math.max(free, store.freeBefore(helper, o));
      free += this.random() * PASSED_OVER;
      if (free >= soonest) continue;
      soonest = free;
      best = crew;
    }
    return best;
  }

  private changeBay(o: number): void {
    const { model, store } = this;
    const hold = store.hold[o] ?? -1;
    if (hold < 0) return;
    const first = model.holdBays.first[hold] ?? 0;
    const count = (model.holdBays.first[hold + 1] ?? 0) - first;
    if (count < 2) return;
    const next = model.holdBays.item[first + this.below(count)] ?? 0;
    if (next !== store.at.holdBay[hold]) store.setBay(hold, next);
  }
}
