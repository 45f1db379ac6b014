import { FAR } from './far.js';
import { OutList } from './out-list.js';
import { PlaceFinder } from './place-finder.js';
import { PlaceWishes } from './place-wishes.js';
import { FROZEN_MOVED, UNPLACED } from './placer.js';
import { PER_MINUTE } from './plan-model.js';
import type { PlanModel } from './plan-model.js';
import { cloned, copy, kept } from './kept.js';
import type { Kept } from './kept.js';
import { takeOutHanging } from './take-out-hanging.js';
import { TakeOuts } from './take-outs.js';
import { Timetable } from './timetable.js';
import { TouchedPlaces } from './touched-places.js';
import type { TableCost } from './timetable.js';

/** What the lesser parts of the objective weigh while it is searched. */
const BLOCKED_RATE = 0.002 * PER_MINUTE;
const FINISH_RATE = 0.0002 * PER_MINUTE;
/** How often what is put in may push others out, who may push others in turn; and how many in all. */
const PUSHES = 0.7;
const MOST_PUSHED = 6;
/** Operations that may be taken out in one attempt, the first ones and those that give way. */
const MOST_OUT = 40;
/** Places that may be found in one attempt: two may push each other out again and again. */
const MOST_STEPS = 20;
/** How far costs of places are blurred, when they are. */
const NOISE = 1;
const total = ({ hard, blocked, finish }: TableCost): number =>
  hard + BLOCKED_RATE * blocked + FINISH_RATE * finish;

/**
 * Search around a previous plan: a few operations are taken out (a late repair order and what stands in its way, what
 * moved and could go back, a window at one technician or bay) and put in again one by one where each costs least, those
 * that must give way to them after them. All else stays. Worse plans are taken for a while, as in simulated annealing.
 */
export class NearbySearch {
  readonly table: Timetable;
  looked = 0;
  readonly best: Kept;
  readonly bestCost: TableCost = { hard: Infinity, blocked: 0, finish: 0 };
  private readonly finder: PlaceFinder;
  private readonly takeOuts: TakeOuts;
  private readonly isMovable: Uint8Array;
  private readonly isMovableHold: Uint8Array;
  private readonly out: OutList;
  private readonly touched: TouchedPlaces;
  private readonly wishes = new PlaceWishes();
  private cost = Infinity;
  private pushed = 0;

  constructor(
    private readonly model: PlanModel,
    private readonly free: readonly number[],
    private readonly random: () => number,
  ) {
    const n = model.operations;
    this.table = new Timetable(model);
    this.isMovable = new Uint8Array(n);
    this.isMovableHold = new Uint8Array(model.holds);
    this.finder = new PlaceFinder(this.table, this.isMovable, this.isMovableHold, random);
    this.out = new OutList(model);
    this.touched = new TouchedPlaces(this.table);
    const takeOut = (o: number, rank: number): void => this.takeOut(o, rank);
    this.takeOuts = new TakeOuts(this.table, free, random, takeOut, this.wishes, this.isMovable);
    this.best = kept(this.table);
    for (const o of free)
      this.isMovable[o] = (model.pinStart[o] ?? -1) < 0 && model.previous.isFrozen[o] !== 1 ? 1 : 0;
    this.refreshHolds();
  }

  /** A hold gives way when all of it may. */
  private refreshHolds(): void {
    this.table.holdMembers.forEach((members, hold) => {
      this.isMovableHold[hold] = members.every((o) => this.isMovable[o] === 1) ? 1 : 0;
    });
  }

  /** Puts in the previous plan as far as it still holds; returns what has no place then. */
  keep(): number[] {
    const { model, finder } = this;
    const { previous } = model;
    const first = (o: number): number =>
      previous.isFrozen[o] === 1 || (model.pinStart[o] ?? -1) >= 0 ? 0 : 1;
    const inOrder = this.free
      .filter((o) => (previous.start[o] ?? -1) >= 0)
      .sort((a, b) => first(a) - first(b) || (previous.start[a] ?? 0) - (previous.start[b] ?? 0) || a - b);
    for (const o of inOrder) if (finder.findFormer(o)) this.put(o);
    return this.free.filter((o) => (this.table.start[o] ?? -1) < 0);
  }

  /**
   * Places what has no place, each where it costs least; what was there gives way if there is no other. Another `variant`
   * than 0 takes them in another order, sees costs blurred and lets some push.
   */
  complete(missing: readonly number[], variant = 0): void {
    const { previous } = this.model;
    for (const o of missing) {
      this.isMovable[o] = (this.model.pinStart[o] ?? -1) < 0 ? 1 : 0;
      const was = previous.start[o] ?? -1;
      const usual = was >= 0 ? was : this.latestStart(o);
      this.out.queue(o, variant % 3 === 2 ? this.latestStart(o) : usual);
    }
    this.refreshHolds();
    this.pushed = 0;
    this.finder.noise = variant === 0 ? 0 : NOISE;
    this.finder.pushRate = 0.25 * 8 ** this.random();
    this.finder.cap = Infinity;
    this.refill(Infinity, variant === 0 ? 0 : this.below(MOST_PUSHED));
    takeOutHanging(this.table, this.free);
    this.begun();
  }

  /** Goes on from places that were held fast. */
  load(from: Kept): void {
    const { table, free } = this;
    for (const o of free) if ((table.start[o] ?? -1) >= 0) table.take(o);
    for (const o of free)
      if ((from.start[o] ?? -1) >= 0)
        table.put(o, from.start[o] ?? 0, from.end[o] ?? 0, from.crew[o] ?? 0, from.bay[o] ?? -1, from.unit);
    this.begun();
  }

  /** The places as they are now, held fast. */
  now(): Kept {
    return kept(this.table);
  }

  /** The best places since the last start, held fast. */
  held(): Kept {
    return cloned(this.best);
  }

  private begun(): void {
    this.forget();
    this.table.recount();
    this.cost = total(this.table.settle());
    this.bestCost.hard = Infinity;
    this.note();
  }

  private latestStart(o: number): number {
    const { model } = this;
    return (
      (model.due[model.order[o] ?? 0] ?? FAR) - (model.tail[o] ?? 0) - (model.shortest[o] ?? 0) - FAR / 4
    );
  }

  /** Tries `tries` changes at a temperature; true when a better plan than all before was found. */
  walk(tries: number, temperature: number): boolean {
    let found = false;
    for (let k = 0; k < tries; k++) {
      this.looked++;
      const limit = this.cost - temperature * Math.log(this.random() + 1e-12);
      this.pushed = 0;
      if (this.hasLost) this.bringLost();
      this.finder.noise = this.random() < 0.5 ? NOISE : 0;
      this.finder.pushRate = 0.25 * 8 ** this.random();
      this.takeOuts.some();
      const pushes = this.random() < PUSHES ? 1 + this.below(MOST_PUSHED) : 0;
      const isWhole = this.out.count > 0 && this.refill(limit, pushes);
      const cost = total(this.table.settle());
      if (!isWhole || cost > limit) {
        this.undo();
        continue;
      }
      this.cost = cost;
      this.forget();
      if (this.note()) found = true;
    }
    return found;
  }

  get bestTotal(): number {
    return total(this.bestCost);
  }

  /** Whether anything has no place, so that it has to be tried again. */
  get hasLost(): boolean {
    return this.cost >= UNPLACED;
  }

  private bringLost(): void {
    for (const o of this.free)
      if ((this.table.start[o] ?? -1) < 0) {
        this.touched.touch(o);
        this.out.queue(o, -FAR);
      }
  }

  private note(): boolean {
    const { bestCost: best, table } = this;
    const { cost } = table;
    const isBetter =
      cost.hard < best.hard - 0.5 ||
      (cost.hard < best.hard + 0.5 &&
        (cost.blocked < best.blocked || (cost.blocked === best.blocked && cost.finish < best.finish)));
    if (!isBetter) return false;
    [best.hard, best.blocked, best.finish] = [cost.hard, cost.blocked, cost.finish];
    copy(table, this.best);
    return true;
  }

  private undo(): void {
    this.out.clear();
    this.wishes.clear();
    this.touched.putBack();
  }

  private forget(): void {
    this.out.clear();
    this.wishes.clear();
    this.touched.forget();
  }

  private put(o: number): void {
    const { finder } = this;
    this.table.put(o, finder.start, finder.end, finder.crew, finder.bay, finder.units);
  }

  /** Takes an operation out, to be put in again by rank. */
  private takeOut(o: number, rank: number): void {
    if (this.isMovable[o] !== 1 || this.out.has(o) || (this.table.start[o] ?? -1) < 0) return;
    this.touched.touch(o);
    this.table.take(o);
    this.out.queue(o, rank);
  }

  /** Puts in all that is out; false when it was given up. `pushes`: how many of the first may push others out. */
  private refill(limit: number, pushes: number): boolean {
    const { table, finder } = this;
    let left = pushes;
    const mostPushed = limit < Infinity ? MOST_OUT : 4 * this.free.length;
    // What is out counts as without a place until it is in; a limit is only compared with what is in.
    let steps = limit < Infinity ? MOST_STEPS : 4 * this.out.count + MOST_STEPS;
    for (let o = this.out.next(); o >= 0; o = this.out.next()) {
      if (steps-- === 0) return false;
      this.touched.touch(o);
      const mayPush = left > 0 && this.pushed < MOST_PUSHED;
      const isWished = this.ask(o);
      // What is placed already and what this costs must not exceed the limit; its repair order's lateness counts once.
      finder.cap = limit - this.placedCost(1) + table.lateOf(this.model.order[o] ?? 0) + this.frozenOf(o);
      let placed = finder.find(o, mayPush || isWished) ? o : -1;
      if (placed < 0 && finder.wasCapped) {
        if (isWished) this.askNothing();
        return false;
      }
      if (isWished) {
        this.askNothing();
        if (placed < 0) return false;
      }
      if (placed >= 0 && finder.isPush) {
        this.giveWay(o);
        left--;
      }
      if (placed < 0 && this.pushed < mostPushed) placed = this.force(o);
      if (placed >= 0) this.put(placed);
      else if (limit < Infinity) return false;
      if (limit === Infinity) continue;
      if (this.touched.count > MOST_OUT) return false;
      if (this.placedCost(0) > limit) return false;
    }
    return total(table.settle()) <= limit;
  }

  /** What costs at least that which is in, and `more` of what is out with no place yet. */
  private placedCost(more: number): number {
    return total(this.table.settle()) - UNPLACED * (this.out.count + more) + this.out.owed;
  }

  private frozenOf(o: number): number {
    return this.model.previous.isFrozen[o] === 1 ? FROZEN_MOVED : 0;
  }

  /** Asks of a place what was wished for an operation; false when nothing was. */
  private ask(o: number): boolean {
    const { finder } = this;
    const { was } = this.touched;
    const wish = this.wishes.of(o);
    if (wish === undefined) return false;
    const dice = wish === 'elsewhere' ? this.random() : 0;
    if (wish === 'back') finder.isFormerOnly = true;
    else if (wish === 'sooner' || dice < 0.3) finder.endBy = (was.end[o] ?? FAR) - 1;
    else if (dice < 0.7) finder.notCrew = was.crew[o] ?? -1;
    else finder.notBefore = (was.start[o] ?? 0) + 1;
    return true;
  }

  private askNothing(): void {
    const { finder } = this;
    finder.isFormerOnly = false;
    finder.endBy = FAR;
    finder.notCrew = -1;
    finder.notBefore = 0;
  }

  /**
   * Where nothing is free: what comes after it in its repair order goes, then its own teardown, then whoever is there.
   * Returns what has a place now (the operation, or the first of its teardown), -1 for nothing.
   */
  private force(o: number): number {
    const { model, finder, table } = this;
    const { first, item } = model.after;
    let isFreed = false;
    for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++)
      isFreed = this.outWithRest(item[k] ?? 0) || isFreed;
    if (isFreed && finder.find(o, false)) return o;
    const hold = model.hold[o] ?? -1;
    let placed = o;
    if (hold >= 0 && this.isMovableHold[hold] === 1) {
      let isOpen = false;
      for (const mate of table.holdMembers[hold] ?? []) isOpen = this.outWithRest(mate) || isOpen;
      if (isOpen && !this.areBeforeIn(o)) {
        this.out.queue(o, this.out.rankOf(o));
        placed = this.out.next();
        this.touched.touch(placed);
      }
      if (isOpen && finder.find(placed, false)) return placed;
    }
    if (!finder.find(placed, true)) return -1;
    this.giveWay(placed);
    return placed;
  }

  private areBeforeIn(o: number): boolean {
    const { first, item } = this.model.before;
    for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) if (this.out.has(item[k] ?? 0)) return false;
    return true;
  }

  /** Takes an operation and all that comes after it out. */
  private outWithRest(o: number): boolean {
    const { first, item } = this.model.after;
    let isTaken = false;
    if ((this.table.start[o] ?? -1) >= 0 && this.isMovable[o] === 1) {
      this.takeOut(o, this.table.start[o] ?? 0);
      this.pushed++;
      isTaken = true;
    }
    for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++)
      isTaken = this.outWithRest(item[k] ?? 0) || isTaken;
    return isTaken;
  }

  /** Takes out what stands in the place that was found. */
  private giveWay(o: number): void {
    const { model, finder } = this;
    const { start, end, crew, bay } = finder;
    this.clear(model.crewLead[crew] ?? 0, start, end);
    const helper = model.crewHelper[crew] ?? -1;
    if (helper >= 0) this.clear(helper, start, end);
    const slots = model.toolKinds.first[o + 1] ?? 0;
    for (let slot = model.toolKinds.first[o] ?? 0; slot < slots; slot++)
      this.clear(finder.units[slot] ?? -1, start, end);
    const hold = model.hold[o] ?? -1;
    if (hold < 0) return;
    const isIn = (this.table.stayCount[hold] ?? 0) > 0;
    const from = isIn ? Math.min(start, this.table.stayFrom[hold] ?? 0) : start;
    const to = isIn ? Math.max(end, this.table.stayTo[hold] ?? 0) : end;
    this.clearBay(bay, from, to, model.order[o] ?? 0);
  }

  private clear(resource: number, start: number, end: number): void {
    const list = this.table.busy[resource];
    if (list === undefined) return;
    for (let k = list.count - 1; k >= 0; k--) {
      if ((list.from[k] ?? 0) >= end || (list.to[k] ?? 0) <= start) continue;
      const owner = list.owner[k] ?? -1;
      if (owner < 0) continue;
      this.pushed++;
      const hadFormer = (this.model.previous.start[owner] ?? -1) >= 0 && this.table.changeCostOf(owner) === 0;
      this.takeOut(owner, this.table.start[owner] ?? 0);
      if (hadFormer && this.out.has(owner)) this.out.owe(owner);
      k = Math.min(k, list.count);
    }
  }

  private clearBay(bay: number, start: number, end: number, order: number): void {
    const { table } = this;
    const list = table.busy[this.model.bay0 + bay];
    if (list === undefined) return;
    for (let k = list.count - 1; k >= 0; k--) {
      if ((list.from[k] ?? 0) >= end || (list.to[k] ?? 0) <= start) continue;
      const hold = list.owner[k] ?? -1;
      if (hold < 0 || table.holdOrder[hold] === order) continue;
      this.pushed++;
      for (const mate of table.holdMembers[hold] ?? []) this.takeOut(mate, table.start[mate] ?? 0);
      k = Math.min(k, list.count);
    }
  }

  private below(count: number): number {
    return Math.floor(this.random() * count);
  }
}
