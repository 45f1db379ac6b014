import { Chains } from './chains.js';
import { guided, isBetter } from './cost-order.js';
import { Dispatcher } from './dispatcher.js';
import type { Beginning } from './best-beginning.js';
import { Draft } from './draft.js';
import type { Placer } from './placer.js';

/**
 * How likely each kind of change is, summed up: keys of a late repair order, of any, of what makes one late, of one
 * operation, of how much somebody's time is spared; the rest is for people. Found by trying on generated weeks.
 */
const CHANGES = { lateOrder: 0.15, anyOrder: 0.25, alongChain: 0.45, oneOperation: 0.55, spare: 0.85 };
/** How often somebody is spared for all that they can do. */
const SPARE_ALL = 0.3;
/** Changes of a key in minutes: from less than the shortest jobs to most of a day. */
const STEP = { narrow: 20, wide: 400 };
/** Changes that are tried at once: some only help together. */
const MOST_AT_ONCE = 3;
/** How far back along what waits for what is looked. */
const MOST_BACK = 12;

/** Simulated annealing over the keys by which the dispatcher chooses (and over crews and bays that are laid down). */
export class KeySearch {
  readonly best: Draft;
  looked = 0;
  readonly dispatcher: Dispatcher;
  private current: Draft;
  private tried: Draft;
  private readonly keys: Float64Array;
  private readonly chains: Chains;
  private cost = 0;
  /** What the last change was made to: kind (0 key, 1 crew, 2 bay, 3 sparing), index, and what was there. */
  private readonly log: number[] = [];

  constructor(
    private readonly placer: Placer,
    private readonly free: readonly number[],
    private readonly random: () => number,
    beginning: Beginning,
  ) {
    const { model } = placer;
    this.dispatcher = new Dispatcher(placer, free);
    this.dispatcher.follow(beginning.rule);
    placer.spared.set(beginning.spared);
    this.keys = this.dispatcher.keys;
    this.best = new Draft(model, free);
    this.current = new Draft(model, free);
    this.tried = new Draft(model, free);
    for (const draft of [this.best, this.current, this.tried]) placer.begin(draft);
    this.chains = new Chains(model, free, random);
    this.dispatcher.run(this.current, this.keys, Infinity);
    this.settle();
    this.best.copyFrom(this.current);
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
      const changes = 1 + Math.floor(this.random() * MOST_AT_ONCE);
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
      else if (log[l] === 3) this.placer.spared[index] = was;
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
    return STEP.narrow * (STEP.wide / STEP.narrow) ** this.random();
  }

  private change(): void {
    const { model } = this.placer;
    const dice = this.random();
    if (dice < CHANGES.lateOrder && this.chains.lateSum > 0) this.shift(this.chains.pickLate(), -this.step());
    else if (dice < CHANGES.anyOrder)
      this.shift(this.below(model.orders), this.random() < 0.4 ? -this.step() : this.step());
    else if (dice < CHANGES.alongChain && this.chains.lateSum > 0) this.alongTheChain();
    else if (dice < CHANGES.oneOperation) {
      const o = this.free[this.below(this.free.length)] ?? 0;
      this.set(o, (this.keys[o] ?? 0) + (this.random() < 0.5 ? -this.step() : this.step()));
    } else if (dice < CHANGES.spare) this.spare();
    else this.changeCrew(this.free[this.below(this.free.length)] ?? 0);
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

  /** Somebody's time is spared more, or less. */
  private spare(): void {
    const { spared, kinds, model } = this.placer;
    if (kinds.pairs.length === 0) return;
    const pair = kinds.pairs[this.below(kinds.pairs.length)] ?? 0;
    const by = Math.round(this.random() < 0.5 ? this.step() : -this.step());
    const isAll = this.random() < SPARE_ALL;
    for (let k = isAll ? pair % model.technicians : pair; k < spared.length; k += model.technicians) {
      const was = spared[k] ?? 0;
      this.log.push(3, k, was);
      spared[k] = Math.max(0, was + by);
      if (!isAll) return;
    }
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
    for (let step = 0; step < MOST_BACK && o >= 0; step++) {
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
