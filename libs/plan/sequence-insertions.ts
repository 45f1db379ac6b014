import { FAR } from './far.js';
import { finishOf } from './finish-of.js';
import type { PlanModel } from './plan-model.js';
import { PER_MINUTE } from './plan-model.js';
import type { SequenceStore } from './sequence-store.js';
import type { SequenceTimes } from './sequence-times.js';

/** So many places in everybody's work, from when an operation could begin, are weighed against each other. */
const PLACES = 4;
/** So many operations that would have to go back are followed. */
const PUSHED = 8;
/** Minutes of lateness of weight 1 by which what looks dearer may pass for cheaper. */
const DOUBT = 30;

/**
 * Finds who could do an operation and before which of their other work, by what it would cost: how late its own repair
 * order would be, and those of the work behind it, as far as the same technician's sequence says.
 */
export class SequenceInsertions {
  private readonly model: PlanModel;
  /** The operations of somebody that end after a time, the last one first. */
  private readonly behind: Int32Array;
  private crew = -1;
  private next = -1;
  private prev = -1;

  constructor(
    private readonly store: SequenceStore,
    private readonly times: SequenceTimes,
    private readonly random: () => number,
  ) {
    this.model = store.model;
    this.behind = new Int32Array(store.model.operations + 1);
  }

  /** Puts an operation where it seems to cost least, but not where it is. False when there is nowhere else. */
  reinsert(o: number): boolean {
    const { model, store } = this;
    if (store.people[o] !== 1) return false;
    const ready = this.times.readyWithoutCrew(o);
    let least = Infinity;
    const last = model.crewFirst[o + 1] ?? 0;
    this.crew = -1;
    for (let crew = model.crewFirst[o] ?? 0; crew < last; crew++) least = this.weigh(o, crew, ready, least);
    if (this.crew < 0 || store.isFull) return false;
    const { position } = store.at;
    const at = position[o] ?? 0;
    const before = this.next < 0 ? FAR : (position[this.next] ?? 0);
    const after = this.prev < 0 ? -1 : (position[this.prev] ?? 0);
    if (at > before) store.moveTo(o, before);
    else if (at < after) store.moveTo(o, after);
    store.setCrew(o, this.crew);
    return true;
  }

  private weigh(o: number, crew: number, ready: number, known: number): number {
    const { model, store, behind } = this;
    const { before, lastUse, end } = store.at;
    let count = 0;
    let use = lastUse[model.crewLead[crew] ?? 0] ?? -1;
    while (use >= 0) {
      const other = store.useOwner[use] ?? 0;
      if (other !== o) {
        if ((end[other] ?? 0) <= ready) break;
        behind[count++] = other;
      }
      use = before[use] ?? -1;
    }
    let least = known;
    let prev = use < 0 ? -1 : (store.useOwner[use] ?? 0);
    const isSame = store.at.crew[o] === crew;
    for (let place = 0; place <= count && place < PLACES; place++) {
      const next = place < count ? (behind[count - 1 - place] ?? 0) : -1;
      const isHere = isSame && this.isBetween(o, prev, next);
      const free = prev < 0 ? 0 : (end[prev] ?? 0);
      const over = finishOf(model, crew, free > ready ? free : ready);
      if (over >= FAR) break;
      if (!isHere) {
        const cost =
          this.ownCost(o, over) + this.pushed(over, count - 1 - place) + this.random() * DOUBT * PER_MINUTE;
        if (cost < least) {
          least = cost;
          this.crew = crew;
          this.next = next;
          this.prev = prev;
        }
      }
      prev = next;
    }
    return least;
  }

  private isBetween(o: number, prev: number, next: number): boolean {
    const { position } = this.store.at;
    const at = position[o] ?? 0;
    return (prev < 0 || (position[prev] ?? 0) < at) && (next < 0 || (position[next] ?? 0) > at);
  }

  private ownCost(o: number, over: number): number {
    const { model, times } = this;
    return times.costOf(model.order[o] ?? 0, over + (model.tail[o] ?? 0));
  }

  /** What it costs more that work from place `from` of `behind` on begins at `time` at the soonest. */
  private pushed(time: number, from: number): number {
    const { model, store, times, behind } = this;
    const { end, crew, orderReady } = store.at;
    let sum = 0;
    let over = time;
    for (let k = from; k >= 0 && k > from - PUSHED; k--) {
      const other = behind[k] ?? 0;
      const was = end[other] ?? 0;
      over = finishOf(model, crew[other] ?? 0, over);
      if (over <= was) break;
      const order = model.order[other] ?? 0;
      const before = orderReady[order] ?? 0;
      const ready = over + (model.tail[other] ?? 0);
      if (ready > before) sum += times.costOf(order, ready) - times.costOf(order, before);
    }
    return sum;
  }
}
