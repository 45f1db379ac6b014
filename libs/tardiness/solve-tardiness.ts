import { seeded } from '#libs/chance';
import { Descent } from './descent.js';
import { latenessOf } from './lateness-of.js';
import { startOrder } from './start-order.js';
import { tardinessBound } from './tardiness-bound.js';
import type { TardinessEffort, TardinessProblem, TardinessSolution } from './tardiness-problem.js';

/** Random exchanges between two descents. */
const KICKS = 6;
/** Descents without a better order before the walk goes back to the best, and before it starts anew elsewhere. */
const GO_BACK = 40;
const START_ANEW = 600;

/** Descents from one order after the other; each starts from the last one with a few random exchanges. */
class Walk {
  best: Int32Array;
  lateness: number;
  descents = 0;
  private readonly descent: Descent;
  private readonly chance: () => number;
  private home: Int32Array;
  private homeLateness: number;
  private current: Int32Array;
  private reached: number;
  private stale = 0;
  /** Walks that came to the least lateness so far. */
  private agreeing = 0;

  constructor(
    private readonly problem: TardinessProblem,
    private readonly effort: TardinessEffort,
    private readonly isLate: () => boolean,
  ) {
    this.chance = seeded(effort.seed);
    this.descent = new Descent(problem.jobs);
    this.descent.order.set(startOrder(problem.jobs, 0, this.chance));
    this.reached = latenessOf(problem.jobs, [...this.descent.order]);
    this.best = this.home = this.current = this.descent.order.slice();
    this.lateness = this.homeLateness = this.reached;
  }

  isOver(): boolean {
    const { maxDescents = Infinity, target = 0, agreeing = Infinity } = this.effort;
    return (
      this.lateness <= target || this.descents >= maxDescents || this.agreeing >= agreeing || this.isLate()
    );
  }

  step(): void {
    const found = this.descent.run(this.isLate);
    this.descents++;
    if (found <= this.reached) {
      this.reached = found;
      this.current = this.descent.order.slice();
    }
    if (found < this.homeLateness) {
      this.homeLateness = found;
      this.home = this.descent.order.slice();
      this.stale = 0;
    } else this.stale++;
    if (found < this.lateness) {
      this.lateness = found;
      this.best = this.descent.order.slice();
      this.agreeing = 0;
    }
    this.kick();
  }

  private kick(): void {
    const { order } = this.descent;
    if (this.stale >= START_ANEW) {
      if (this.homeLateness === this.lateness) this.agreeing++;
      this.stale = 0;
      order.set(startOrder(this.problem.jobs, 4, this.chance));
      this.reached = this.homeLateness = Infinity;
      return;
    }
    if (this.stale % GO_BACK === GO_BACK - 1) {
      this.current = this.home.slice();
      this.reached = this.homeLateness;
    }
    order.set(this.current);
    for (let kick = 0; kick < KICKS; kick++) {
      const one = Math.floor(this.chance() * order.length);
      const other = Math.floor(this.chance() * order.length);
      [order[one], order[other]] = [order[other] ?? 0, order[one] ?? 0];
    }
  }
}

/**
 * An order with little weighted lateness: iterated dynasearch (Congram, Potts, van de Velde 2002, from memory). The first
 * order is there at once; the rest of the time improves it.
 */
export function solveTardiness(problem: TardinessProblem, effort: TardinessEffort): TardinessSolution {
  const start = effort.now();
  const isLate = (): boolean => effort.now() - start >= effort.timeLimitMs;
  const walk = new Walk(problem, effort, isLate);
  const firstMs = effort.now() - start;
  while (!walk.isOver()) walk.step();
  const order = [...walk.best];
  return {
    order,
    lateness: walk.lateness,
    bound: tardinessBound(problem.jobs, order, walk.lateness),
    firstMs,
    descents: walk.descents,
  };
}
