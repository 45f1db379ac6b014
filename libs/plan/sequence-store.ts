import type { Draft } from './draft.js';
import type { StartedWork } from './plan-model.js';
import { SequenceMemory } from './sequence-memory.js';

/**
 * The sequences of a plan in which people, bays and units of tools are laid down, without its times: who and what does
 * which work after which, and one order of all operations that no sequence contradicts. Changes are logged.
 */
export class SequenceStore extends SequenceMemory {
  /**
   * Takes over a draft that was placed, everything in the order of its starts and to be timed anew. False when something
   * in it has no place or is done in a bay in which its car stands apart for something else.
   */
  load(draft: Draft, started: readonly StartedWork[]): boolean {
    const { at, free, model } = this;
    this.keep();
    at.position.fill(-1);
    at.before.fill(-1);
    at.after.fill(-1);
    at.lastUse.fill(-1);
    at.holdBefore.fill(-1);
    at.holdAfter.fill(-1);
    at.lastHold.fill(-1);
    at.orderReady.fill(0);
    at.end.fill(0);
    if (free.some((o) => (draft.start[o] ?? -1) < 0)) return false;
    const sorted = Array.from(free).sort(
      (a, b) =>
        (draft.start[a] ?? 0) - (draft.start[b] ?? 0) || (draft.position[a] ?? 0) - (draft.position[b] ?? 0),
    );
    sorted.forEach((o, k) => {
      at.order[k] = o;
      at.position[o] = k;
      at.crew[o] = draft.crew[o] ?? 0;
      this.loadTools(draft, o);
      const hold = this.hold[o] ?? -1;
      if (hold >= 0) at.holdBay[hold] = draft.bay[o] ?? 0;
      this.markMoved(o);
    });
    for (const { operation, start, end, bay } of started) {
      at.start[operation] = start;
      at.end[operation] = end;
      const hold = this.hold[operation] ?? -1;
      if (hold >= 0 && bay >= 0) at.holdBay[hold] = bay;
    }
    const bayOf = at.holdBay.slice();
    return this.settle() && at.holdBay.every((bay, hold) => bay === bayOf[hold]) && model.operations > 0;
  }

  private loadTools(draft: Draft, o: number): void {
    const { toolKinds, car0, order } = this.model;
    const last = toolKinds.first[o + 1] ?? 0;
    let use = (this.useFirst[o] ?? 0) + (this.people[o] ?? 0);
    for (let slot = toolKinds.first[o] ?? 0; slot < last; slot++)
      this.at.resource[use++] = draft.unit[slot] ?? 0;
    if (use < (this.useFirst[o + 1] ?? 0)) this.at.resource[use] = car0 + (order[o] ?? 0);
  }

  /** Forgets what was changed: it is taken back. */
  forget(): void {
    while (this.movedCount > 0) this.isMoved[this.moved[--this.movedCount] ?? 0] = 0;
    while (this.reholdCount > 0) this.isReheld[this.rehold[--this.reholdCount] ?? 0] = 0;
    if (this.dirtyCount > 0) for (const o of this.free) this.isDirty[o] = 0;
    this.dirtyCount = 0;
  }

  markMoved(o: number): void {
    if (this.isMoved[o] === 1) return;
    this.isMoved[o] = 1;
    this.moved[this.movedCount++] = o;
  }

  mark(o: number): void {
    if (this.isDirty[o] === 1) return;
    this.isDirty[o] = 1;
    this.dirtyCount++;
    const position = this.at.position[o] ?? 0;
    if (position < this.firstDirty) this.firstDirty = position;
  }

  markHold(hold: number): void {
    const { first, item } = this.members;
    const last = first[hold + 1] ?? 0;
    for (let k = first[hold] ?? 0; k < last; k++) this.mark(item[k] ?? 0);
  }

  setCrew(o: number, crew: number): void {
    if (this.at.crew[o] === crew) return;
    this.write(this.base.crew + o, crew);
    this.markMoved(o);
  }

  setBay(hold: number, bay: number): void {
    this.write(this.base.holdBay + hold, bay);
    this.reenter(hold);
  }

  private reenter(hold: number): void {
    if (this.isReheld[hold] === 1) return;
    this.isReheld[hold] = 1;
    this.rehold[this.reholdCount++] = hold;
  }

  /** Moves an operation to a position, and with it whatever must stay before (or after) it. */
  moveTo(o: number, to: number): void {
    const { order, position } = this.at;
    const { held, model } = this;
    const from = position[o] ?? 0;
    if (to === from) return;
    const repairOrder = model.order[o] ?? 0;
    const offset = model.orderFirst[repairOrder] ?? 0;
    const reach = model.reach[repairOrder] ?? held;
    const size = (model.orderEnd[repairOrder] ?? 0) - offset;
    const own = o - offset;
    const isSooner = to < from;
    const step = isSooner ? -1 : 1;
    let count = 0;
    let write = from;
    // What stays closes the gap, what goes along is held and follows behind it.
    for (let k = from; k !== to + step; k += step) {
      const other = order[k] ?? 0;
      const mate = other - offset;
      const goes =
        other === o ||
        (model.order[other] === repairOrder &&
          (isSooner ? reach[mate * size + own] : reach[own * size + mate]) === 1);
      if (goes) held[count++] = other;
      else {
        this.write(this.base.order + write, other);
        this.write(this.base.position + other, write);
        write += step;
      }
    }
    for (let k = 0; k < count; k++) {
      const other = held[k] ?? 0;
      this.write(this.base.order + write, other);
      this.write(this.base.position + other, write);
      write += step;
      this.markMoved(other);
    }
  }

  /** Enters what was moved into its sequences. False when the bays cannot be shared so. */
  settle(): boolean {
    const { moved, useFirst, at, hold } = this;
    this.firstDirty = at.order.length;
    for (let k = 0; k < this.movedCount; k++) {
      const o = moved[k] ?? 0;
      const last = useFirst[o + 1] ?? 0;
      for (let use = useFirst[o] ?? 0; use < last; use++) this.takeOut(use);
      if ((hold[o] ?? -1) >= 0) this.reenter(hold[o] ?? 0);
    }
    for (let k = 0; k < this.reholdCount; k++) this.takeOutHold(this.rehold[k] ?? 0);
    for (let k = 0; k < this.movedCount; k++) {
      const o = moved[k] ?? 0;
      this.isMoved[o] = 0;
      this.mark(o);
      this.enterUses(o);
    }
    this.movedCount = 0;
    let fits = true;
    for (let k = 0; k < this.reholdCount; k++) {
      const own = this.rehold[k] ?? 0;
      this.isReheld[own] = 0;
      fits = fits && this.enterHold(own);
    }
    this.reholdCount = 0;
    return fits;
  }

  private enterUses(o: number): void {
    const { model, at } = this;
    const first = this.useFirst[o] ?? 0;
    const people = this.people[o] ?? 0;
    const crew = at.crew[o] ?? 0;
    if (people > 0) this.write(this.base.resource + first, model.crewLead[crew] ?? 0);
    if (people > 1) this.write(this.base.resource + first + 1, model.crewHelper[crew] ?? 0);
    const last = this.useFirst[o + 1] ?? 0;
    for (let use = first; use < last; use++) this.enter(use);
  }

  private takeOut(use: number): void {
    const { before, after, resource } = this.at;
    const [prev, next] = [before[use] ?? -1, after[use] ?? -1];
    if (prev >= 0) this.write(this.base.after + prev, next);
    if (next < 0) this.write(this.base.lastUse + (resource[use] ?? 0), prev);
    else {
      this.write(this.base.before + next, prev);
      this.mark(this.useOwner[next] ?? 0);
    }
  }

  private enter(use: number): void {
    const { before, position, resource, lastUse } = this.at;
    const { useOwner } = this;
    const own = resource[use] ?? 0;
    const place = position[useOwner[use] ?? 0] ?? 0;
    let next = -1;
    let prev = lastUse[own] ?? -1;
    while (prev >= 0 && (position[useOwner[prev] ?? 0] ?? 0) > place) {
      next = prev;
      prev = before[prev] ?? -1;
    }
    this.write(this.base.before + use, prev);
    this.write(this.base.after + use, next);
    if (prev >= 0) this.write(this.base.after + prev, use);
    if (next < 0) this.write(this.base.lastUse + own, use);
    else {
      this.write(this.base.before + next, use);
      this.mark(useOwner[next] ?? 0);
    }
  }

  private takeOutHold(hold: number): void {
    const { holdBefore, holdAfter } = this.at;
    const [prev, next] = [holdBefore[hold] ?? -1, holdAfter[hold] ?? -1];
    if (prev >= 0) this.write(this.base.holdAfter + prev, next);
    if (next >= 0) {
      this.write(this.base.holdBefore + next, prev);
      this.markHold(next);
      return;
    }
    for (let bay = 0; bay < this.model.bays; bay++)
      if (this.at.lastHold[bay] === hold) this.write(this.base.lastHold + bay, prev);
  }

  /** Enters a hold where it was laid down or, when it does not go in between there, into the bay that is free soonest. */
  private enterHold(hold: number): boolean {
    const { holdBay } = this.at;
    const [open, close] = [this.opens(hold), this.closes(hold)];
    if (this.enterInto(hold, holdBay[hold] ?? 0, open, close)) return true;
    const { first, item } = this.model.holdBays;
    const last = first[hold + 1] ?? 0;
    let best = -1;
    let soonest = Infinity;
    for (let k = first[hold] ?? 0; k < last; k++) {
      const bay = item[k] ?? 0;
      const prev = this.holdBeforePosition(bay, open, close);
      if (prev === NONE) continue;
      const free = prev < 0 ? 0 : this.holdEnd(prev);
      if (free >= soonest) continue;
      soonest = free;
      best = bay;
    }
    return best >= 0 && this.enterInto(hold, best, open, close);
  }

  /** The hold after which one from `open` to `close` goes into a bay: -1 for the first, `NONE` when it does not fit. */
  holdBeforePosition(bay: number, open: number, close: number): number {
    const { lastHold, holdBefore } = this.at;
    let next = -1;
    let prev = lastHold[bay] ?? -1;
    while (prev >= 0 && this.opens(prev) > open) {
      next = prev;
      prev = holdBefore[prev] ?? -1;
    }
    if (prev >= 0 && this.closes(prev) > open) return NONE;
    if (next >= 0 && this.opens(next) < close) return NONE;
    return prev;
  }

  private enterInto(hold: number, bay: number, open: number, close: number): boolean {
    const prev = this.holdBeforePosition(bay, open, close);
    if (prev === NONE) return false;
    const { lastHold, holdAfter } = this.at;
    let next = -1;
    if (prev >= 0) next = holdAfter[prev] ?? -1;
    else {
      next = lastHold[bay] ?? -1;
      while (next >= 0 && (this.at.holdBefore[next] ?? -1) >= 0) next = this.at.holdBefore[next] ?? -1;
    }
    this.write(this.base.holdBay + hold, bay);
    this.write(this.base.holdBefore + hold, prev);
    this.write(this.base.holdAfter + hold, next);
    if (prev >= 0) this.write(this.base.holdAfter + prev, hold);
    if (next < 0) this.write(this.base.lastHold + bay, hold);
    else {
      this.write(this.base.holdBefore + next, hold);
      this.markHold(next);
    }
    this.markHold(hold);
    return true;
  }
}

/** No place in a bay. */
const NONE = -2;
