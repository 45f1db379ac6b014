import { guided, isBetter } from './cost-order.js';
import { COSTS, Draft, STEP } from './draft.js';
import { Moves } from './moves.js';
import type { Placer } from './placer.js';
import { sortByStart } from './sort-by-start.js';

/** Positions to both sides at which a single operation is tried. */
const REACH = 120;

/** Simulated annealing over the order of a draft, its crews and its bays. Goes on where it stopped. */
export class Annealing {
  readonly best: Draft;
  looked = 0;
  private readonly current: Draft;
  private readonly tried: Draft;
  private readonly moves: Moves;
  private readonly hasPrevious: boolean;
  private cost = 0;
  private hasFound = false;
  private readonly none = new Int32Array(0);

  /** `start` has to be placed (`Placer.place`). */
  constructor(
    private readonly placer: Placer,
    private readonly random: () => number,
    free: readonly number[],
    start: Draft,
  ) {
    const { model } = placer;
    this.hasPrevious = model.previous.any;
    this.best = new Draft(model, free);
    this.current = new Draft(model, free);
    this.tried = new Draft(model, free);
    this.moves = new Moves(model, random, free.length, free);
    this.best.copyFrom(start);
    this.goBack(start);
  }

  /** Goes on from this draft. */
  goBack(from: Draft): void {
    this.current.copyFrom(from);
    this.tried.copyFrom(from);
    this.cost = guided(this.current.cost);
    this.moves.aim(this.current);
  }

  /** Tries `tries` changes at a temperature; true when a better draft than all before was found. */
  walk(tries: number, temperature: number): boolean {
    this.hasFound = false;
    for (let k = 0; k < tries; k++) {
      if (!this.moves.change(this.tried, this.hasPrevious)) this.looked++;
      else this.attempt(this.cost - temperature * Math.log(this.random() + 1e-12));
    }
    return this.hasFound;
  }

  /** Puts one operation wherever around it costs least. */
  replace(o: number): void {
    const count = this.tried.order.length;
    const at = this.current.position[o] ?? 0;
    for (let to = Math.max(0, at - REACH); to < Math.min(count, at + REACH); to++) {
      this.moves.begin(this.tried);
      this.moves.move(this.tried, o, to);
      if (this.moves.last >= 0) this.attempt(this.cost - 1);
    }
  }

  /** Places what was changed and takes it when it costs no more than `limit`. */
  private attempt(limit: number): void {
    const { placer, tried, current, moves } = this;
    this.looked++;
    const run = placer.place(tried, moves.first, moves.last, limit, current);
    const cost = run.isWhole ? guided(tried.cost) : Infinity;
    const last = Math.max(run.stop, moves.last + 1);
    if (cost > limit) {
      this.copy(current, tried, run.first, last, run.stop);
      return;
    }
    if (placer.hasWaited) {
      sortByStart(tried);
      placer.place(tried, 0, 0, Infinity, null);
      current.copyFrom(tried);
    } else this.copy(tried, current, run.first, last, run.stop);
    this.cost = guided(current.cost);
    moves.aim(current);
    if (!isBetter(current.cost, this.best.cost)) return;
    this.best.copyFrom(current);
    this.hasFound = true;
  }

  /** Makes one draft like another where they differ: positions from `first` to before `last`, placed up to `stop`. */
  private copy(from: Draft, to: Draft, first: number, last: number, stop: number): void {
    const isBack = to === this.tried;
    const { toolKinds } = this.placer.model;
    for (let k = first; k < last; k++) {
      const o = (isBack ? to : from).order[k] ?? 0;
      to.start[o] = from.start[o] ?? 0;
      to.end[o] = from.end[o] ?? 0;
      to.crew[o] = from.crew[o] ?? 0;
      to.bay[o] = from.bay[o] ?? 0;
      to.position[o] = from.position[o] ?? 0;
      const slots = toolKinds.first[o + 1] ?? 0;
      for (let slot = toolKinds.first[o] ?? 0; slot < slots; slot++) to.unit[slot] = from.unit[slot] ?? 0;
    }
    for (let k = first; k < last; k++) to.order[k] = from.order[k] ?? 0;
    if (isBack) this.moves.undo(to);
    else this.moves.redo(from, to);
    const row = Math.floor(first / STEP);
    const end = Math.min(Math.floor(stop / STEP) + 1, to.rowIsGood.length);
    for (let r = row; r < end; r++) {
      to.rows[r]?.set(from.rows[r] ?? this.none);
      to.rowIsGood[r] = from.rowIsGood[r] ?? 0;
    }
    // Costs of kept states behind a take-over have moved as well.
    for (let k = row * COSTS; k < to.rowCosts.length; k++) to.rowCosts[k] = from.rowCosts[k] ?? 0;
    to.cost.set(from.cost);
  }
}
