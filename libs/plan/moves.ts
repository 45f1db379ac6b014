import { Chains } from './chains.js';
import type { Draft } from './draft.js';
import type { PlanModel } from './plan-model.js';

/** How far back it is looked for what an operation waits for. */
const LOOK_BACK = 400;
const STEPS = 12;

/**
 * How likely each kind of change is, summed up: along what makes a repair order late, a whole repair order, two in each
 * other's place, some operations; the rest is for people. Found by trying on generated weeks.
 */
const CHANGES = { alongChain: 0.6, order: 0.7, swapOrders: 0.8, someOperations: 0.9 };
/** How often what stands in the way goes behind, and how often one more of its block is gone before. */
const PUSH_BEHIND = 0.3;
const ONE_MORE_OF_BLOCK = 0.5;

const FROM = 0;
const WISH = 1;
const BAY = 2;

/**
 * Changes a draft a little, and can take it back. Most changes begin at a repair order that is late: from its end back
 * along what waits for what, until something is found that could go sooner, elsewhere or with somebody else.
 */
export class Moves {
  /** The first and the last position that the last change touched. */
  first = 0;
  last = 0;
  private readonly log: number[] = [];
  private readonly held: Int32Array;
  private readonly chains: Chains;
  private readonly free: Int32Array;

  constructor(
    private readonly model: PlanModel,
    private readonly random: () => number,
    count: number,
    free: readonly number[],
  ) {
    this.held = new Int32Array(count);
    this.chains = new Chains(model, free, random);
    this.free = Int32Array.from(free);
  }

  aim(draft: Draft): void {
    this.chains.aim(draft);
  }

  private below(count: number): number {
    return Math.floor(this.random() * count);
  }

  /** Forgets the last change. */
  begin(draft: Draft): void {
    this.log.length = 0;
    this.first = draft.order.length;
    this.last = -1;
  }

  /** Makes one change; false when nothing came to mind. */
  change(draft: Draft, hasPrevious: boolean): boolean {
    this.begin(draft);
    const dice = this.random();
    if (hasPrevious && dice < 0.15) this.changeFrom(draft, this.free[this.below(this.free.length)] ?? 0);
    else if (dice < CHANGES.alongChain && this.chains.lateSum > 0) this.alongTheChain(draft);
    else if (dice < CHANGES.order)
      this.shiftOrder(draft, this.random() < 0.5 ? this.chains.pickLate() : this.below(this.model.orders));
    else if (dice < CHANGES.swapOrders) this.swapOrders(draft);
    else if (dice < CHANGES.someOperations) this.shiftSome(draft);
    else this.changeCrew(draft, this.free[this.below(this.free.length)] ?? 0);
    return this.last >= 0;
  }

  undo(draft: Draft): void {
    const { log } = this;
    for (let k = log.length - 3; k >= 0; k -= 3) {
      const [what, index, was] = [log[k] ?? 0, log[k + 1] ?? 0, log[k + 2] ?? 0];
      (what === FROM ? draft.from : what === WISH ? draft.wish : draft.bayWish)[index] = was;
    }
  }

  redo(from: Draft, to: Draft): void {
    const { log } = this;
    for (let k = 0; k < log.length; k += 3) {
      const [what, index] = [log[k] ?? 0, log[k + 1] ?? 0];
      if (what === FROM) to.from[index] = from.from[index] ?? 0;
      else if (what === WISH) to.wish[index] = from.wish[index] ?? 0;
      else to.bayWish[index] = from.bayWish[index] ?? 0;
    }
  }

  private touch(first: number, last: number): void {
    if (first < this.first) this.first = first;
    if (last > this.last) this.last = last;
  }

  private alongTheChain(draft: Draft): void {
    const order = this.chains.pickLate();
    let o = this.chains.sink[order] ?? -1;
    for (let step = 0; step < STEPS && o >= 0; step++) {
      const cause = this.chains.causeOf(draft, o);
      const isOwn = cause >= 0 && this.model.order[cause] === this.model.order[o];
      const isKept = (draft.from[o] ?? 0) === draft.start[o] && (draft.from[o] ?? 0) > 0;
      if (isKept && this.random() < 0.5) {
        this.changeFrom(draft, o);
        return;
      }
      if (cause < 0 || (!isOwn && this.random() < 0.5)) {
        this.act(draft, o, cause);
        return;
      }
      if (isOwn && this.random() < 0.15) {
        this.changeCrew(draft, o);
        return;
      }
      o = cause;
    }
  }

  private isSame(draft: Draft, o: number, other: number): boolean {
    return (
      draft.bay[o] === draft.bay[other] ||
      this.model.crewLead[draft.crew[o] ?? 0] === this.model.crewLead[draft.crew[other] ?? 0]
    );
  }

  private act(draft: Draft, o: number, cause: number): void {
    const { model } = this;
    const dice = this.random();
    const at = draft.position[o] ?? 0;
    if (cause >= 0 && this.random() < PUSH_BEHIND) {
      this.pushBehind(draft, cause, at);
      return;
    }
    if (cause < 0) {
      if (dice < 0.5) this.changeCrew(draft, o);
      else this.move(draft, o, Math.max(0, at - 1 - this.below(20)));
      return;
    }
    if (dice < 0.35) {
      let first = cause;
      while (this.random() < ONE_MORE_OF_BLOCK) {
        const next = this.chains.causeOf(draft, first);
        if (next < 0 || model.order[next] === model.order[o]) break;
        if (!this.isSame(draft, o, next)) break;
        first = next;
      }
      this.move(draft, o, this.placeBefore(draft, o, first));
    } else if (dice < 0.5) this.changeCrew(draft, o);
    else if (dice < 0.65) this.changeCrew(draft, cause);
    else if (dice < 0.8) this.move(draft, cause, Math.min(at + this.below(6), draft.order.length - 1));
    else if (dice < 0.9) this.changeBay(draft, this.random() < 0.5 ? o : cause);
    else this.move(draft, o, Math.max(0, at - 1 - this.below(1 + this.below(40))));
  }

  /** A position from which `o` goes before `cause`: before its whole teardown, when it is the bay that is wanted. */
  private placeBefore(draft: Draft, o: number, cause: number): number {
    const { model } = this;
    let place = draft.position[cause] ?? 0;
    const hold = model.hold[cause] ?? -1;
    if (hold < 0 || (model.several[hold] ?? -1) < 0 || draft.bay[cause] !== draft.bay[o]) return place;
    const order = model.order[cause];
    for (let k = place - 1; k >= Math.max(0, place - LOOK_BACK); k--) {
      const other = draft.order[k] ?? 0;
      if (model.order[other] === order && model.hold[other] === hold) place = k;
    }
    return place;
  }

  /** The repair order that stands in the way goes, from that operation on, behind a position. */
  private pushBehind(draft: Draft, cause: number, at: number): void {
    const { model } = this;
    const repairOrder = model.order[cause] ?? 0;
    const mine: number[] = [];
    const last = model.orderEnd[repairOrder] ?? 0;
    const from = draft.position[cause] ?? 0;
    for (let o = model.orderFirst[repairOrder] ?? 0; o < last; o++)
      if ((draft.position[o] ?? -1) >= from) mine.push(o);
    mine.sort((a, b) => (draft.position[b] ?? 0) - (draft.position[a] ?? 0));
    const by = at - from + this.below(20);
    for (const o of mine)
      this.move(draft, o, Math.min(draft.order.length - 1, (draft.position[o] ?? 0) + by));
  }

  /** Moves what is left of a repair order from one of its operations on, as a whole. */
  private shiftOrder(draft: Draft, repairOrder: number): void {
    const { model, held } = this;
    if (repairOrder < 0) return;
    let count = 0;
    const last = model.orderEnd[repairOrder] ?? 0;
    for (let o = model.orderFirst[repairOrder] ?? 0; o < last; o++)
      if ((draft.position[o] ?? -1) >= 0) held[count++] = o;
    if (count === 0) return;
    const mine = Array.from(held.subarray(0, count)).sort(
      (a, b) => (draft.position[a] ?? 0) - (draft.position[b] ?? 0),
    );
    const from = this.random() < 0.6 ? 0 : this.below(count);
    const wide = 1 + this.below(1 + this.below(Math.min(80, draft.order.length)));
    const top = draft.order.length - 1;
    if (this.random() < 0.5)
      for (const o of mine.slice(from)) this.move(draft, o, Math.max(0, (draft.position[o] ?? 0) - wide));
    else
      for (const o of mine.slice(from).reverse())
        this.move(draft, o, Math.min(top, (draft.position[o] ?? 0) + wide));
  }

  /** Two repair orders take each other's places, one operation after the other. */
  private swapOrders(draft: Draft): void {
    const { model } = this;
    const one = this.random() < 0.6 ? this.chains.pickLate() : this.below(model.orders);
    const other = this.below(model.orders);
    if (one < 0 || one === other) return;
    const of = (repairOrder: number): number[] => {
      const mine: number[] = [];
      const last = model.orderEnd[repairOrder] ?? 0;
      for (let o = model.orderFirst[repairOrder] ?? 0; o < last; o++)
        if ((draft.position[o] ?? -1) >= 0) mine.push(o);
      return mine.sort((a, b) => (draft.position[a] ?? 0) - (draft.position[b] ?? 0));
    };
    const ones = of(one);
    const others = of(other);
    if (ones.length === 0 || others.length === 0) return;
    const places = [...ones, ...others].map((o) => draft.position[o] ?? 0).sort((a, b) => a - b);
    const owners = places.map((place) => model.order[draft.order[place] ?? 0]);
    let i = 0;
    let j = 0;
    places.forEach((place, k) => {
      const wantsOther = owners[k] === one;
      const o = (wantsOther && j < others.length) || i >= ones.length ? others[j++] : ones[i++];
      draft.order[place] = o ?? 0;
      draft.position[o ?? 0] = place;
    });
    this.touch(places[0] ?? 0, places.at(-1) ?? 0);
  }

  private shiftSome(draft: Draft): void {
    const count = draft.order.length;
    const at = this.below(count);
    const wide = 1 + this.below(1 + this.below(40));
    const to = this.random() < 0.5 ? at - wide : at + wide;
    this.move(draft, draft.order[at] ?? 0, Math.min(count - 1, Math.max(0, to)));
  }

  private changeCrew(draft: Draft, o: number): void {
    const first = this.model.crewFirst[o] ?? 0;
    const count = (this.model.crewFirst[o + 1] ?? 0) - first;
    if (count < 2) return;
    const was = draft.wish[o] ?? -1;
    let next = this.random() < 0.3 ? -1 : first + this.below(count);
    if (next === was) next = was < 0 ? first + this.below(count) : -1;
    this.log.push(WISH, o, was);
    draft.wish[o] = next;
    const at = draft.position[o] ?? 0;
    this.touch(at, at);
  }

  private changeBay(draft: Draft, o: number): void {
    const { model } = this;
    const hold = model.hold[o] ?? -1;
    if (hold < 0) return;
    const first = model.holdBays.first[hold] ?? 0;
    const count = (model.holdBays.first[hold + 1] ?? 0) - first;
    if (count < 2) return;
    const was = draft.bayWish[hold] ?? -1;
    const next = this.random() < 0.5 ? -1 : (model.holdBays.item[first + this.below(count)] ?? -1);
    if (next === was) return;
    let at = draft.position[o] ?? 0;
    if ((model.several[hold] ?? -1) >= 0) at = this.openedAt(draft, hold);
    this.log.push(BAY, hold, was);
    draft.bayWish[hold] = next;
    this.touch(at, at);
  }

  private openedAt(draft: Draft, hold: number): number {
    for (let k = 0; k < draft.order.length; k++) if (this.model.hold[draft.order[k] ?? 0] === hold) return k;
    return 0;
  }

  /** Keeps an operation where the previous plan had it, or lets it go. */
  private changeFrom(draft: Draft, o: number): void {
    const { previous } = this.model;
    const was = draft.from[o] ?? 0;
    const old = previous.start[o] ?? -1;
    if (old < 0) return;
    const isKept = was === old;
    this.log.push(FROM, o, was);
    draft.from[o] = isKept ? 0 : old;
    const crew = previous.crew[o] ?? -1;
    if (!isKept && crew >= 0) {
      this.log.push(WISH, o, draft.wish[o] ?? -1);
      draft.wish[o] = crew;
    } else if (isKept && this.random() < 0.5) {
      this.log.push(WISH, o, draft.wish[o] ?? -1);
      draft.wish[o] = -1;
    }
    const at = draft.position[o] ?? 0;
    this.touch(at, at);
  }

  /** Moves an operation to a position, and with it whatever must stay before (or after) it. */
  move(draft: Draft, o: number, to: number): void {
    const at = draft.position[o] ?? 0;
    if (to === at) return;
    const { order, position } = draft;
    const { held, model } = this;
    const repairOrder = model.order[o] ?? 0;
    const offset = model.orderFirst[repairOrder] ?? 0;
    const reach = model.reach[repairOrder] ?? new Uint8Array(0);
    const size = Math.sqrt(reach.length);
    const low = to < at ? to : at;
    const high = to < at ? at : to;
    let kept = low;
    let moved = 0;
    const isEarlier = to < at;
    // What stays is written in place, what goes with it is held: before it all when it goes sooner, after it all else.
    if (isEarlier) {
      let back = high;
      for (let k = high; k >= low; k--) {
        const other = order[k] ?? 0;
        const goes =
          model.order[other] === repairOrder &&
          (other === o || reach[(other - offset) * size + o - offset] === 1);
        if (goes) held[moved++] = other;
        else order[back--] = other;
      }
      for (let k = 0; k < moved; k++) order[back--] = held[k] ?? 0;
    } else {
      for (let k = low; k <= high; k++) {
        const other = order[k] ?? 0;
        const goes =
          model.order[other] === repairOrder &&
          (other === o || reach[(o - offset) * size + other - offset] === 1);
        if (goes) held[moved++] = other;
        else order[kept++] = other;
      }
      for (let k = 0; k < moved; k++) order[kept++] = held[k] ?? 0;
    }
    for (let k = low; k <= high; k++) position[order[k] ?? 0] = k;
    this.touch(low, high);
  }
}
