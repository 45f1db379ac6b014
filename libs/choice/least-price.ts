import type { Effort } from './choice-problem.js';
import type { Budgets, Found, Goal } from './goal.js';
import { networkOf } from './network.js';
import type { Priced } from './priced.js';
import { Search } from './search.js';
import { shapeWithin } from './shape-within.js';

/** The least price of anything that includes what must be included. */
class LeastGoal implements Goal {
  constructor(public least: number) {}

  wants(_benefit: number, price: number): boolean {
    return price < this.least;
  }

  offer({ price }: Found): void {
    this.least = Math.min(this.least, price);
  }

  narrow(budgets: Budgets): void {
    budgets.high = Math.min(budgets.high, this.least - 1);
  }
}

/**
 * The least price that includes what must be. That is nearly always the price of just that; but where tax is rounded by
 * line, one more line on the same labour can move the roundings and save a cent.
 */
export function leastPrice({ shape, prices }: Priced, effort: Effort): number {
  const goal = new LeastGoal(prices.exact(shape.must));
  const start = effort.now();
  let nodes = 0;
  for (const lower of prices.lowers) {
    const within = shapeWithin(shape, lower);
    if (within === null) continue;
    const network = networkOf(lower, within);
    const enough = (): boolean => ++nodes % 64 === 0 && effort.now() - start >= effort.timeLimitMs;
    if (network.slack > 0)
      new Search({ shape: within, network, goal, exact: prices.exact, enough }).run(0, goal.least - 1);
  }
  return goal.least;
}
