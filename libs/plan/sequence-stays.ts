import type { PlanModel } from './plan-model.js';
import { PER_MINUTE } from './plan-model.js';
import type { SequenceStore } from './sequence-store.js';
import type { SequenceTimes } from './sequence-times.js';

/** So many places in a bay are looked at, the last ones. */
const PLACES = 64;
/** Minutes of lateness of weight 1 by which what looks dearer may pass for cheaper. */
const DOUBT = 60;

/** Moves a whole stay in a bay to where, by the ends of the stays around it, it would cost least. */
export class SequenceStays {
  private readonly model: PlanModel;
  private bay = -1;
  private next = -1;
  private prev = -1;

  constructor(
    private readonly store: SequenceStore,
    private readonly times: SequenceTimes,
    private readonly random: () => number,
  ) {
    this.model = store.model;
  }

  /** Brings a car in elsewhere, or before or after other cars. False when there is nowhere else. */
  move(hold: number): boolean {
    const { model, store } = this;
    const { first, item } = store.members;
    const from = first[hold] ?? 0;
    const count = (first[hold + 1] ?? 0) - from;
    const opens = store.opens(hold);
    if (opens < 0 || store.isFull) return false;
    let ready = 0;
    for (let k = 0; k < count; k++) {
      const o = item[from + k] ?? 0;
      if ((store.at.position[o] ?? 0) === opens) ready = this.times.readyWithoutBay(o);
    }
    let least = Infinity;
    this.bay = -1;
    const last = model.holdBays.first[hold + 1] ?? 0;
    for (let k = model.holdBays.first[hold] ?? 0; k < last; k++)
      least = this.weigh(hold, model.holdBays.item[k] ?? 0, ready, least);
    if (this.bay < 0) return false;
    if (this.bay !== store.at.holdBay[hold]) store.setBay(hold, this.bay);
    this.apart(hold);
    return true;
  }

  /** All that is done during the stay goes between the stays before and after it. */
  private apart(hold: number): void {
    const { store, next, prev } = this;
    const { position } = store.at;
    const { first, item } = store.members;
    const list = Array.from(item.subarray(first[hold] ?? 0, first[hold + 1] ?? 0)).filter(
      (o) => (position[o] ?? -1) >= 0,
    );
    list.sort((a, b) => (position[a] ?? 0) - (position[b] ?? 0));
    if (next >= 0)
      for (const o of list) {
        const bound = store.opens(next);
        if (bound >= 0 && (position[o] ?? 0) > bound) store.moveTo(o, bound);
      }
    if (prev < 0) return;
    for (const o of list.reverse()) {
      const bound = store.closes(prev);
      if ((position[o] ?? 0) < bound) store.moveTo(o, bound);
    }
  }

  private weigh(hold: number, bay: number, ready: number, known: number): number {
    const { model, store } = this;
    const { lastHold, holdBefore, holdBay } = store.at;
    const span = model.holdSpan[hold] ?? 0;
    const own = model.order[store.members.item[store.members.first[hold] ?? 0] ?? 0] ?? 0;
    const leaves = store.holdEnd(hold);
    const tail = Math.max(0, (store.at.orderReady[own] ?? 0) - leaves);
    const was = this.opened(hold);
    let least = known;
    let next = -1;
    let prev = lastHold[bay] ?? -1;
    for (let place = 0; place < PLACES; place++) {
      if (prev === hold) prev = holdBefore[prev] ?? -1;
      const free = prev < 0 ? 0 : store.holdEnd(prev);
      const start = free > ready ? free : ready;
      const isHere = holdBay[hold] === bay && (next < 0 || this.opened(next) >= leaves) && free <= was;
      if (!isHere) {
        const over = Math.max(leaves + start - was, start + span);
        let cost = this.times.costOf(own, over + tail) + this.random() * DOUBT * PER_MINUTE;
        if (next >= 0) cost += this.pushed(next, over);
        if (cost < least) {
          least = cost;
          this.bay = bay;
          this.next = next;
          this.prev = prev;
        }
      }
      if (prev < 0 || free <= ready) break;
      next = prev;
      prev = holdBefore[prev] ?? -1;
    }
    return least;
  }

  /** About when the first work of a stay begins. */
  private opened(hold: number): number {
    const { model, store } = this;
    const { first, item } = store.members;
    let least = Infinity;
    for (let k = first[hold] ?? 0; k < (first[hold + 1] ?? 0); k++) {
      const o = item[k] ?? 0;
      const start = (store.at.end[o] ?? 0) - (model.shortest[o] ?? 0);
      if (start < least) least = start;
    }
    return least;
  }

  /** What it costs more that a stay begins at `time` at the soonest, with those behind it. */
  private pushed(from: number, time: number): number {
    const { model, store, times } = this;
    let sum = 0;
    let over = time;
    for (let hold = from; hold >= 0; hold = store.at.holdAfter[hold] ?? -1) {
      const by = over - this.opened(hold);
      if (by <= 0) break;
      const order = model.order[store.members.item[store.members.first[hold] ?? 0] ?? 0] ?? 0;
      const ready = store.at.orderReady[order] ?? 0;
      sum += times.costOf(order, ready + by) - times.costOf(order, ready);
      over = store.holdEnd(hold) + by;
    }
    return sum;
  }
}
