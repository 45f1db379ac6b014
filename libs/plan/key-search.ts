import { Chains } from './chains.js';
import { guided, isBetter } from './cost-order.js';
import { Dispatcher } from './dispatcher.js';
import type { DispatchRule } from './dispatcher.js';
import { Draft } from './draft.js';
import type { Placer } from './placer.js';

/** How likely each kind of change is, summed up; the size of steps in minutes; changes at once. */
const K = { late: 0.3, any: 0.5, chain: 0.75, one: 0.85, wide: 400, narrow: 20, most: 3 };

/** Simulated annealing over the keys by which the dispatcher chooses (and over crews and bays that are laid down). */
export class KeySearch {
  readonly best: Draft;
  looked = 0;
  readonly dispatcher: Dispatcher;
  private current: Draft;
  private tried: Draft;
  private readonly keys: Float64Array;
  private readonly chains: Chains;
  private readonly hasPrevious: boolean;
  private cost = 0;
  /** What the last change was made to: kind (0 key, 1 crew, 2 bay), index, and what was there. */
  private readonly log: number[] = [];

  constructor(
    private readonly placer: Placer,
    private readonly free: readonly number[],
    private readonly random: () => number,
    rule: DispatchRule,
    kept: Draft | null = null,
  ) {
    const { model } = placer;
    this.dispatcher = new Dispatcher(placer, free);
    this.dispatcher.follow(rule);
    this.keys = this.dispatcher.keys;
    this.best = new Draft(model, free);
    this.current = new Draft(model, free);
    this.tried = new Draft(model, free);
    for (const draft of [this.best, this.current, this.tried]) placer.begin(draft);
    this.chains = new Chains(model, free, random);
    this.hasPrevious = kept !== null;
    if (kept !== null) this.keep(kept, rule.urgency);
    this.dispatcher.run(this.current, this.keys, Infinity);
    this.settle();
    this.best.copyFrom(this.current);
  }

  /** Starts from a plan: its people, bays and starts are wished for, and its order is the order of the keys. */
  private keep(kept: Draft, urgency: number): void {
    for (const draft of [this.best, this.current, this.tried]) {
      draft.wish.set(kept.crew);
      draft.bayWish.set(kept.bayWish);
      draft.from.set(kept.from);
    }
    for (const o of this.free) this.keys[o] = urgency * (kept.start[o] ?? 0);
  }

  private settle(): void {
    const { current } = this;
    this.cost = guided(current.cost);
    for (let k = 0; k < current.order.length; k++) current.position[current.order[k] ?? 0] = k;
    this.chains.aim(current);
  }

  walk(tries: number, temperature: number): boolean {
    let found = false;
    for (let k = 0; k < tries; k++) {
      this.looked++;
      this.log.length = 0;
      const changes = 1 + Math.floor(this.random() * K.most);
      for (let c = 0; c < changes; c++) this.change();
      const { tried, current } = this;
      const limit = this.cost - temperature * Math.log(this.random() + 1e-12);
      const isDone = this.dispatcher.run(tried, this.keys, limit);
      if (!isDone || guided(tried.cost) > limit) {
        this.undo();
        continue;
      }
      this.current = tried;
      this.tried = current;
      for (let l = 0; l < this.log.length; l += 3) {
        const index = this.log[l + 1] ?? 0;
        if (this.log[l] === 1) current.wish[index] = tried.wish[index] ?? -1;
        if (this.log[l] === 2) current.bayWish[index] = tried.bayWish[index] ?? -1;
        if (this.log[l] === 3) current.from[index] = tried.from[index] ?? 0;
      }
      this.settle();
      if (isBetter(tried.cost, this.best.cost)) {
        this.best.copyFrom(tried);
        found = true;
      }
    }
    return found;
  }

  private undo(): void {
    const { log } = this;
    for (let l = log.length - 3; l >= 0; l -= 3) {
      const index = log[l + 1] ?? 0;
      const was = log[l + 2] ?? 0;
      if (log[l] === 0) this.keys[index] = was;
      else if (log[l] === 3) this.tried.from[index] = was;
      else (log[l] === 1 ? this.tried.wish : this.tried.bayWish)[index] = was;
    }
  }

  private below(count: number): number {
    return Math.floor(this.random() * count);
  }

  private set(o: number, key: number): void {
    this.log.push(0, o, this.keys[o] ?? 0);
    this.keys[o] = key;
  }

  /** A step, small ones as likely as great ones. */
  private step(): number {
    return K.narrow * (K.wide / K.narrow) ** this.random();
  }

  private change(): void {
    const { model } = this.placer;
    if (this.hasPrevious && this.random() < 0.5) {
      this.letGo();
      return;
    }
    const dice = this.random();
    if (dice < K.late && this.chains.lateSum > 0) this.shift(this.chains.pickLate(), -this.step());
    else if (dice < K.any)
      this.shift(this.below(model.orders), this.random() < 0.4 ? -this.step() : this.step());
    else if (dice < K.chain && this.chains.lateSum > 0) this.alongTheChain();
    else if (dice < K.one) {
      const o = this.free[this.below(this.free.length)] ?? 0;
      this.set(o, (this.keys[o] ?? 0) + (this.random() < 0.5 ? -this.step() : this.step()));
    } else this.changeCrew(this.free[this.below(this.free.length)] ?? 0);
  }

  /** Lets what is late, or what it waits for, go from its former place, or puts something back there. */
  private letGo(): void {
    const { previous, orderFirst, orderEnd } = this.placer.model;
    const dice = this.random();
    if (dice < 0.25) {
      const o = this.free[this.below(this.free.length)] ?? 0;
      if ((previous.start[o] ?? -1) < 0) return;
      this.log.push(3, o, this.tried.from[o] ?? 0);
      this.tried.from[o] = previous.start[o] ?? 0;
      this.wish(o, previous.crew[o] ?? -1);
      this.set(o, this.dispatcher.rule.urgency * (previous.start[o] ?? 0));
      return;
    }
    const order = this.chains.pickLate();
    if (order < 0) return;
    if (dice < 0.6) {
      const by = this.random() < 0.7 ? -this.step() : 0;
      const last = orderEnd[order] ?? 0;
      for (let o = orderFirst[order] ?? 0; o < last; o++) this.release(o, by);
      return;
    }
    let o = this.chains.sink[order] ?? -1;
    for (let step = 0; step < 12 && o >= 0; step++) {
      const cause = this.chains.causeOf(this.current, o);
      if (cause < 0 || this.random() < 0.4) {
        this.release(o, -this.step());
        if (cause >= 0 && this.random() < 0.5) this.release(cause, this.step());
        return;
      }
      o = cause;
    }
  }

  private release(o: number, by: number): void {
    if ((this.current.position[o] ?? -1) < 0) return;
    this.log.push(3, o, this.tried.from[o] ?? 0);
    this.tried.from[o] = 0;
    if (this.random() < 0.5) this.wish(o, -1);
    const hold = this.placer.model.hold[o] ?? -1;
    if (hold >= 0 && this.random() < 0.5) {
      this.log.push(2, hold, this.tried.bayWish[hold] ?? -1);
      this.tried.bayWish[hold] = -1;
    }
    if (by !== 0) this.set(o, (this.keys[o] ?? 0) + by);
  }

  private wish(o: number, crew: number): void {
    this.log.push(1, o, this.tried.wish[o] ?? -1);
    this.tried.wish[o] = crew;
  }

  private shift(order: number, by: number): void {
    if (order < 0) return;
    const { orderFirst, orderEnd } = this.placer.model;
    const last = orderEnd[order] ?? 0;
    for (let o = orderFirst[order] ?? 0; o < last; o++) this.set(o, (this.keys[o] ?? 0) + by);
  }

  private changeCrew(o: number): void {
    const { model } = this.placer;
    const first = model.crewFirst[o] ?? 0;
    const count = (model.crewFirst[o + 1] ?? 0) - first;
    if (count < 2) return;
    this.log.push(1, o, this.tried.wish[o] ?? -1);
    this.tried.wish[o] = this.random() < 0.5 ? -1 : first + this.below(count);
  }

  private changeBay(o: number): void {
    const { model } = this.placer;
    const hold = model.hold[o] ?? -1;
    if (hold < 0) return;
    const first = model.holdBays.first[hold] ?? 0;
    const count = (model.holdBays.first[hold + 1] ?? 0) - first;
    if (count < 2) return;
    this.log.push(2, hold, this.tried.bayWish[hold] ?? -1);
    this.tried.bayWish[hold] =
      this.random() < 0.5 ? -1 : (model.holdBays.item[first + this.below(count)] ?? -1);
  }

  private alongTheChain(): void {
    const { model } = this.placer;
    let o = this.chains.sink[this.chains.pickLate()] ?? -1;
    for (let step = 0; step < 12 && o >= 0; step++) {
      const cause = this.chains.causeOf(this.current, o);
      if (cause < 0) {
        if (this.random() < 0.5) this.changeCrew(o);
        else this.set(o, (this.keys[o] ?? 0) - this.step());
        return;
      }
      const isOwn = model.order[cause] === model.order[o];
      if (!isOwn && this.random() < 0.5) {
        const dice = this.random();
        if (dice < 0.4) this.set(o, (this.keys[cause] ?? 0) - this.step() / 4);
        else if (dice < 0.6) this.set(cause, (this.keys[o] ?? 0) + this.step() / 4);
        else if (dice < 0.7) this.shift(model.order[cause] ?? 0, this.step());
        else if (dice < 0.8) this.changeCrew(o);
        else if (dice < 0.9) this.changeCrew(cause);
        else this.changeBay(this.random() < 0.5 ? o : cause);
        return;
      }
      o = cause;
    }
  }
}
