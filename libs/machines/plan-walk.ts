import { BestMove } from './best-move.js';
import type { Chance } from '#libs/chance';
import { MoveLengths } from './move-lengths.js';
import type { Sequences } from './sequences.js';
import { emptyKept } from './sequences.js';
import type { Kept } from './sequences.js';
import { TabuList } from './tabu-list.js';

/** Moves between two looks at the clock. */
const LOOK = 64;
/** Least moves for which an overtaking is not undone; jobs per machine are added, and up to as much again by chance. */
const OVERTAKEN = 5;
/** Least moves before an operation may go back to a machine; up to the length of the chain is added by chance. */
const LEFT = 3;
/** For how long a move is left alone that would have made a circle. */
const CIRCLE = 20;
/** One step in so many looks at the shorter moves within a block as well. */
const WIDE = 16;

/**
 * Tabu search over plans. Only a longest chain can be shortened, so the moves are: within a block of the chain on one
 * machine, an operation behind the last or before the first (E. Balas, A. Vazacopoulos 1998); and an operation of the
 * chain to another machine that can do it, at the places where that cannot make a circle (M. Mastrolilli, L. M.
 * Gambardella 2000; M. A. González, C. R. Vela, R. Varela 2015; all from memory). The move that looks shortest is made, even when it makes the plan longer.
 */
export class PlanWalk {
  /** Moves made so far. */
  moves = 0;
  private readonly path: Int32Array;
  private readonly lengths: MoveLengths;
  private readonly tabu: TabuList;
  private readonly best: Kept;
  private readonly allowed: BestMove;
  private readonly forbidden: BestMove;
  /** The shortest so far in this walk: what beats it is allowed whatever is forbidden. */
  private shortest = Infinity;
  /** Counts as the moves do, and jumps between walks so that nothing forbidden lasts. */
  private clock = 0;

  constructor(
    private readonly plan: Sequences,
    private readonly chance: Chance,
    private readonly isOver: () => boolean,
  ) {
    this.path = new Int32Array(plan.layout.size);
    this.lengths = new MoveLengths(plan);
    this.tabu = new TabuList(plan);
    this.best = emptyKept(plan.layout);
    this.allowed = new BestMove(chance);
    this.forbidden = new BestMove(chance);
  }

  /** Walks until so many moves in a row found nothing shorter; the plan is then the shortest one passed. */
  walk(patience: number, target: number): void {
    const { plan, best } = this;
    this.clock += plan.layout.size + 100;
    plan.save(best);
    for (let idle = 0; idle < patience && best.makespan > target; idle++) {
      if (this.moves % LOOK === 0 && this.isOver()) break;
      this.moves++;
      this.clock++;
      this.shortest = best.makespan;
      if (!this.step()) break;
      if (plan.makespan < best.makespan) {
        plan.save(best);
        idle = 0;
      }
    }
    plan.load(best);
  }

  /** One move; false when there is none. */
  private step(): boolean {
    const { plan, path, allowed, forbidden } = this;
    const count = plan.criticalPath(path, this.chance);
    allowed.clear();
    forbidden.clear();
    this.weighBlocks(count, this.chance.below(WIDE) === 0);
    if (plan.layout.isFlexible) for (let at = 0; at < count; at++) this.weighMachines(path[at] as number);
    if (allowed.operation < 0 && forbidden.operation < 0) this.weighBlocks(count, true);
    const { operation, way, after } = allowed.operation >= 0 ? allowed : forbidden;
    if (operation < 0) return false;
    if (way === plan.way[operation]) this.reorder(operation, after);
    else this.reassign(operation, way, after, count);
    return true;
  }

  private reassign(operation: number, way: number, after: number, chain: number): void {
    const { plan, tabu, clock } = this;
    const { from, machineOf } = plan.layout;
    const left = plan.machine[operation] as number;
    if (!plan.move(operation, way, after)) {
      tabu.forbidBack(operation, machineOf[way] as number, clock + CIRCLE);
      return;
    }
    const ways = (from[operation + 1] as number) - (from[operation] as number);
    tabu.forbidBack(operation, left, clock + LEFT + this.chance.below(chain + ways));
  }

  private reorder(operation: number, after: number): void {
    const { plan, tabu, clock } = this;
    const { jobs, machines, size } = plan.layout;
    const isLater = this.isLater(operation, after);
    const [next, previous] = [plan.after[operation] as number, plan.before[operation] as number];
    if (!plan.move(operation, plan.way[operation] as number, after)) {
      // Only operations that take no time can mislead the choice of moves into a circle.
      if (isLater) tabu.forbidAhead(after, operation, clock + CIRCLE);
      else tabu.forbidAhead(operation, previous, clock + CIRCLE);
      return;
    }
    const tenure = OVERTAKEN + Math.floor(jobs / machines);
    const until = clock + tenure + this.chance.below(tenure + 1);
    if (isLater)
      for (let o = next; o !== operation && o !== size; o = plan.after[o] as number)
        tabu.forbidAhead(operation, o, until);
    else
      for (let o = plan.after[operation] as number; ; o = plan.after[o] as number) {
        tabu.forbidAhead(o, operation, until);
        if (o === previous) break;
      }
  }

  private isLater(operation: number, after: number): boolean {
    const { place, layout } = this.plan;
    return after !== layout.size && (place[after] as number) > (place[operation] as number);
  }

  /** Finds the blocks of the chain and weighs the moves within each. */
  private weighBlocks(count: number, isWide: boolean): void {
    const { path } = this;
    const { machine } = this.plan;
    for (let from = 0, to = 0; from < count; from = to + 1) {
      to = from;
      const on = machine[path[from] as number] as number;
      while (to + 1 < count && machine[path[to + 1] as number] === on) to++;
      if (to === from) continue;
      // At the start of the chain only the block's end matters, at its end only the block's start.
      const isEndWeighed = to < count - 1;
      if (isEndWeighed) this.weighEnd(from, to, isWide);
      // Of two operations there is one swap only.
      if (from > 0 && !(isEndWeighed && to === from + 1)) this.weighStart(from, to, isWide);
    }
  }

  /** Operations behind the block's last; when `isWide`, as far behind as they can be instead. */
  private weighEnd(from: number, to: number, isWide: boolean): void {
    const { path } = this;
    const { rest, layout } = this.plan;
    for (let at = from; at < to; at++) {
      const u = path[at] as number;
      // Nothing that follows u in its job may come before what u is put behind.
      const left = rest[layout.jobAfter[u] as number] as number;
      let behind = to;
      if (isWide) while (behind > at && (rest[path[behind] as number] as number) < left) behind--;
      const v = path[behind] as number;
      if (behind > at && (rest[v] as number) >= left) this.weighLater(u, v);
    }
  }

  /** Operations before the block's first; when `isWide`, as far ahead as they can be instead. */
  private weighStart(from: number, to: number, isWide: boolean): void {
    const { path } = this;
    const { end, before, layout } = this.plan;
    for (let at = from + 1; at <= to; at++) {
      const v = path[at] as number;
      const ready = end[layout.jobBefore[v] as number] as number;
      let ahead = from;
      if (isWide) while (ahead < at && (end[path[ahead] as number] as number) < ready) ahead++;
      const u = path[ahead] as number;
      if (ahead < at && (end[u] as number) >= ready) this.weighSooner(v, before[u] as number);
    }
  }

  private weighLater(u: number, v: number): void {
    const length = this.lengths.later(u, v);
    if (length > this.allowed.length) return;
    const isTabu = length >= this.shortest && this.tabu.isLaterForbidden(u, v, this.clock);
    (isTabu ? this.forbidden : this.allowed).offer(u, this.plan.way[u] as number, v, isTabu ? 0 : length);
  }

  private weighSooner(v: number, a: number): void {
    const length = this.lengths.sooner(v, a);
    if (length > this.allowed.length) return;
    const isTabu = length >= this.shortest && this.tabu.isSoonerForbidden(v, a, this.clock);
    (isTabu ? this.forbidden : this.allowed).offer(v, this.plan.way[v] as number, a, isTabu ? 0 : length);
  }

  /**
   * Weighs every other machine for an operation. There it must stand behind all that can only be before it and before
   * all that can only be behind it; between those it makes no circle, and the best place is one of them.
   */
  private weighMachines(v: number): void {
    const { plan, tabu, allowed, forbidden, shortest } = this;
    const { end, rest, after, firstOn, layout } = plan;
    const { size, from, machineOf, durationOf } = layout;
    const head = end[layout.jobBefore[v] as number] as number;
    const tail = rest[layout.jobAfter[v] as number] as number;
    for (let way = from[v] as number; way < (from[v + 1] as number); way++) {
      const machine = machineOf[way] as number;
      if (machine === plan.machine[v]) continue;
      const duration = durationOf[way] as number;
      if (head + duration + tail > allowed.length) continue;
      const isForbidden = tabu.isBackForbidden(v, machine, this.clock);
      let a = size;
      let o = firstOn[machine] as number;
      while (o !== size && (rest[o] as number) > tail && (end[o] as number) <= head) {
        a = o;
        o = after[o] as number;
      }
      for (;;) {
        const ready = end[a] as number;
        const left = rest[o] as number;
        const length = (ready > head ? ready : head) + duration + (left > tail ? left : tail);
        if (length <= allowed.length) {
          if (isForbidden && length >= shortest) forbidden.offer(v, way, a, 0);
          else allowed.offer(v, way, a, length);
        }
        if (o === size || ((end[o] as number) > head && (rest[o] as number) <= tail)) break;
        a = o;
        o = after[o] as number;
      }
    }
  }
}
