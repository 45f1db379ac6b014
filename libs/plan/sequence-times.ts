import { NEAR_RATE } from './chains.js';
import { ownerHold } from './closed-times.js';
import { closedUntil } from './closed-until.js';
import { FINISH_RATE } from './cost-order.js';
import { FAR } from './far.js';
import { PER_MINUTE } from './plan-model.js';
import type { PlanModel } from './plan-model.js';
import { bucketsOf } from './rota.js';
import type { SequenceStore } from './sequence-store.js';

const PER_CALENDAR = bucketsOf();
/**
 * A change is given up when what it is known to make dearer exceeds what it is allowed by so many times the savings in
 * sight: more of them may come to light. With 1 some good changes are lost, with 3 more is timed and nothing won.
 */
const CHEAPER_FACTOR = 2;

/**
 * The times of `SequenceStore`'s sequences: everything as early as what stands before it lets it. After a change only what
 * it reaches is timed anew.
 */
export class SequenceTimes {
  cost = 0;
  /** Repair orders that are ready at another time since the last change, up to `touchedCount`. */
  readonly touched: Int32Array;
  touchedCount = 0;
  private readonly model: PlanModel;
  private readonly latest: Float64Array;
  private readonly saved: Float64Array;
  private dearer = 0;
  private cheaper = 0;
  private readonly isTouched: Uint8Array;
  private readonly isSpecialBay: Uint8Array;
  private readonly hasSpecialBay: boolean;
  private readonly order: Int32Array;
  private readonly end: Int32Array;
  private readonly crew: Int32Array;
  private readonly before: Int32Array;
  private readonly after: Int32Array;
  private readonly resource: Int32Array;
  private readonly holdBay: Int32Array;
  private readonly holdBefore: Int32Array;
  private readonly holdAfter: Int32Array;
  private readonly isDirty: Uint8Array;
  private readonly endBase: number;
  private s = 0;
  private e = 0;

  /** `freeAt` and `readyAtStart`: from when on each resource is free, and what each repair order's started work says. */
  constructor(
    private readonly store: SequenceStore,
    private readonly freeAt: Int32Array,
    private readonly readyAtStart: Int32Array,
  ) {
    const { model } = store;
    this.model = model;
    [this.touched, this.isTouched] = [new Int32Array(model.orders), new Uint8Array(model.orders)];
    [this.latest, this.saved] = [new Float64Array(model.orders), new Float64Array(model.orders)];
    const { first } = model.closed;
    this.isSpecialBay = Uint8Array.from({ length: model.bays }, (_, bay) => {
      const isClosed = (first[model.bay0 + bay + 1] ?? 0) > (first[model.bay0 + bay] ?? 0);
      return isClosed || (model.liftUntil[bay] ?? FAR) < FAR ? 1 : 0;
    });
    this.hasSpecialBay = this.isSpecialBay.includes(1);
    const { order, end, crew, before, after, resource, holdBay, holdBefore, holdAfter } = store.at;
    [this.order, this.end, this.crew, this.before] = [order, end, crew, before];
    [this.after, this.resource, this.holdBay] = [after, resource, holdBay];
    [this.holdBefore, this.holdAfter, this.isDirty] = [holdBefore, holdAfter, store.isDirty];
    this.endBase = store.base.end;
  }

  /** What a repair order costs that is ready at a time. */
  costOf(order: number, ready: number): number {
    const due = this.model.due[order] ?? 0;
    const late = ready - due;
    const near = late + this.model.near;
    const charged = (late > 0 ? late : 0) + (near > 0 ? NEAR_RATE * near : 0);
    return charged * PER_MINUTE * (this.model.weight[order] ?? 0) + FINISH_RATE * ready;
  }

  /** The part of that which lateness has, or being nearly late. */
  lateCost(order: number, ready: number): number {
    return this.costOf(order, ready) - FINISH_RATE * ready;
  }

  /** Times everything. */
  begin(): boolean {
    this.store.at.orderReady.set(this.readyAtStart);
    const isKept = this.update(Infinity);
    this.sumUp();
    return isKept;
  }

  /** Adds all repair orders up. */
  sumUp(): void {
    this.cost = 0;
    for (let order = 0; order < this.model.orders; order++)
      this.cost += this.costOf(order, this.store.at.orderReady[order] ?? 0);
  }

  /** Times anew what is marked, and what that reaches. False when something is broken that the sequences must keep. */
  update(allowed: number): boolean {
    const { store, isDirty, order, end } = this;
    this.touchedCount = 0;
    this.dearer = 0;
    this.cheaper = 0;
    for (let k = store.firstDirty; store.dirtyCount > 0; k++) {
      const o = order[k] ?? 0;
      if (isDirty[o] !== 1) continue;
      isDirty[o] = 0;
      store.dirtyCount--;
      const isPossible = this.time(o);
      const was = end[o] ?? 0;
      if (isPossible && this.e === was) continue;
      if (!isPossible || this.forecast(o, was) > allowed) {
        this.untouch();
        return false;
      }
      store.write(this.endBase + o, this.e);
      this.spread(o);
    }
    for (let k = 0; k < this.touchedCount; k++) this.charge(this.touched[k] ?? 0);
    this.untouch();
    return true;
  }

  /** What the change costs more so far, if all that it makes sooner were to be ready so much sooner. */
  private forecast(o: number, was: number): number {
    const { model } = this;
    const own = model.order[o] ?? 0;
    if (this.isTouched[own] === 0) {
      this.isTouched[own] = 1;
      this.touched[this.touchedCount++] = own;
      this.latest[own] = this.store.at.orderReady[own] ?? 0;
      this.saved[own] = 0;
    }
    const ready = this.e + (model.tail[o] ?? 0);
    if (this.e > was) {
      const latest = this.latest[own] ?? 0;
      if (ready > latest) {
        this.dearer += this.costOf(own, ready) - this.costOf(own, latest);
        this.latest[own] = ready;
      }
    } else {
      const before = this.store.at.orderReady[own] ?? 0;
      const saved = ready < before ? this.costOf(own, before) - this.costOf(own, ready) : 0;
      const most = this.saved[own] ?? 0;
      if (saved > most) {
        this.cheaper += saved - most;
        this.saved[own] = saved;
      }
    }
    return this.dearer - CHEAPER_FACTOR * this.cheaper;
  }

  private untouch(): void {
    for (let k = 0; k < this.touchedCount; k++) this.isTouched[this.touched[k] ?? 0] = 0;
  }

  private charge(order: number): void {
    const { orderReady, end } = this.store.at;
    let ready = this.readyAtStart[order] ?? 0;
    const last = this.model.orderEnd[order] ?? 0;
    for (let o = this.model.orderFirst[order] ?? 0; o < last; o++)
      if (this.store.isFree[o] === 1 && (end[o] ?? 0) > ready) ready = end[o] ?? 0;
    const was = orderReady[order] ?? 0;
    if (ready === was) return;
    this.cost += this.costOf(order, ready) - this.costOf(order, was);
    this.store.write(this.store.base.orderReady + order, ready);
  }

  /** When an operation could begin, were its crew at work. */
  readyOf(o: number): number {
    const { store } = this;
    const ready = this.readyFrom(o, store.useFirst[o] ?? 0);
    const hold = store.hold[o] ?? -1;
    if (hold < 0) return ready;
    const over = this.bayFree(hold);
    return over > ready ? over : ready;
  }

  private bayFree(hold: number): number {
    const prev = this.holdBefore[hold] ?? -1;
    if (prev >= 0) return this.store.holdEnd(prev);
    return this.freeAt[this.model.bay0 + (this.holdBay[hold] ?? 0)] ?? 0;
  }

  /** When an operation could begin, were everybody free. */
  readyWithoutCrew(o: number): number {
    const { store } = this;
    const ready = this.readyFrom(o, (store.useFirst[o] ?? 0) + (store.people[o] ?? 0));
    const hold = store.hold[o] ?? -1;
    return hold < 0 ? ready : Math.max(ready, this.bayFree(hold));
  }

  /** When an operation could begin, were every bay and everybody free. */
  readyWithoutBay(o: number): number {
    return this.readyFrom(o, (this.store.useFirst[o] ?? 0) + (this.store.people[o] ?? 0));
  }

  /** When an operation could begin by what it waits for, of what it uses only from a use on. */
  private readyFrom(o: number, firstUse: number): number {
    const { model, store, freeAt, end, before } = this;
    let ready = model.release[o] ?? 0;
    const earlier = model.before;
    const lastBefore = earlier.first[o + 1] ?? 0;
    for (let k = earlier.first[o] ?? 0; k < lastBefore; k++) {
      const over = end[earlier.item[k] ?? 0] ?? 0;
      if (over > ready) ready = over;
    }
    const { useFirst, useOwner } = store;
    const last = useFirst[o + 1] ?? 0;
    for (let use = firstUse; use < last; use++) {
      const prev = before[use] ?? -1;
      const over = prev < 0 ? (freeAt[this.resource[use] ?? 0] ?? 0) : (end[useOwner[prev] ?? 0] ?? 0);
      if (over > ready) ready = over;
    }
    return ready;
  }

  /** Finds an operation's time; false when it can have none. */
  private time(o: number): boolean {
    const { model } = this;
    let ready = this.readyOf(o);
    const pin = model.pinStart[o] ?? -1;
    if (pin >= 0) {
      if (ready > pin) return false;
      ready = pin;
    }
    const crew = this.crew[o] ?? 0;
    this.work(crew, ready);
    if (model.hasClosed) this.workClear(o, crew);
    const { e } = this;
    if (e > (model.crewUntil[crew] ?? 0) || e >= FAR || (pin >= 0 && this.s !== pin)) return false;
    return !this.hasSpecialBay || this.isBayOpen(o);
  }

  /** Marks what waits for an operation; all of it stands later. */
  private spread(o: number): void {
    const { model, store, isDirty, after } = this;
    let count = 0;
    const follow = model.after;
    const lastAfter = follow.first[o + 1] ?? 0;
    for (let k = follow.first[o] ?? 0; k < lastAfter; k++) {
      const next = follow.item[k] ?? 0;
      if (isDirty[next] === 1) continue;
      isDirty[next] = 1;
      count++;
    }
    const last = store.useFirst[o + 1] ?? 0;
    for (let use = store.useFirst[o] ?? 0; use < last; use++) {
      const nextUse = after[use] ?? -1;
      if (nextUse < 0) continue;
      const next = store.useOwner[nextUse] ?? 0;
      if (isDirty[next] === 1) continue;
      isDirty[next] = 1;
      count++;
    }
    store.dirtyCount += count;
    const hold = store.hold[o] ?? -1;
    const next = hold < 0 ? -1 : (this.holdAfter[hold] ?? -1);
    if (next >= 0) store.markHold(next);
  }

  /** The time from `from` on in which a crew does its work, resting where it does not work. */
  private work(crew: number, from: number): void {
    const { rota, crewCalendar, crewMinutes } = this.model;
    const bucket = from >> rota.shift;
    const at = (crewCalendar[crew] ?? 0) * PER_CALENDAR + (bucket < PER_CALENDAR ? bucket : PER_CALENDAR - 1);
    let period = rota.bucket[at] ?? 0;
    while ((rota.to[period] ?? 0) <= from) period++;
    const opens = rota.from[period] ?? 0;
    const start = opens > from ? opens : from;
    let left = (crewMinutes[crew] ?? 0) + start - (rota.to[period] ?? 0);
    while (left > 0) {
      period++;
      left += (rota.from[period] ?? 0) - (rota.to[period] ?? 0);
    }
    this.s = start;
    this.e = (rota.to[period] ?? 0) + left;
  }

  /** Later, until nothing that an operation uses is closed while it is done. */
  private workClear(o: number, crew: number): void {
    const { model, store } = this;
    const last = store.useFirst[o + 1] ?? 0;
    for (let isClear = false; !isClear && this.e < FAR;) {
      isClear = true;
      for (let use = store.useFirst[o] ?? 0; use < last; use++) {
        const opens = closedUntil(model, store.at.resource[use] ?? 0, this.s, this.e, o, -1);
        if (opens <= this.s) continue;
        this.work(crew, opens);
        isClear = false;
      }
    }
  }

  /** Whether the bay of an operation's hold is open all the time, and its lift may be used so long. */
  private isBayOpen(o: number): boolean {
    const { model, store } = this;
    const hold = store.hold[o] ?? -1;
    store.write(store.base.start + o, this.s);
    if (hold < 0) return true;
    const bay = this.holdBay[hold] ?? 0;
    if (this.isSpecialBay[bay] !== 1) return true;
    if (model.needsLift[o] === 1 && this.e > (model.liftUntil[bay] ?? FAR)) return false;
    let from = FAR;
    const { first, item } = store.members;
    for (let k = first[hold] ?? 0; k < (first[hold + 1] ?? 0); k++)
      from = Math.min(from, store.at.start[item[k] ?? 0] ?? 0);
    return closedUntil(model, model.bay0 + bay, from, this.e, -1, ownerHold(hold)) < 0;
  }

  /** The start of every free operation, as its end is. */
  startOf(o: number): number {
    this.time(o);
    return this.s;
  }
}
