import { HAIR } from './goal.js';
import type { Budgets, Found, Goal } from './goal.js';

/** Every set that beats all cheaper ones: price and benefit rise together. */
export class StairGoal implements Goal {
  readonly stairs: Found[] = [];

  /** The place of the dearest stair that costs no more than `price`; -1 when there is none. */
  private below(price: number): number {
    let low = 0;
    let high = this.stairs.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.stairs[middle]?.price ?? Infinity) <= price) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  }

  wants(benefit: number, price: number): boolean {
    const stair = this.stairs[this.below(price)];
    return stair === undefined || benefit > stair.benefit;
  }

  offer(found: Found): void {
    if (!this.wants(found.benefit, found.price)) return;
    const below = this.below(found.price);
    const from = this.stairs[below]?.price === found.price ? below : below + 1;
    let to = from;
    while ((this.stairs[to]?.benefit ?? Infinity) <= found.benefit) to++;
    this.stairs.splice(from, to - from, found);
  }

  /**
   * At a budget, only more than the stair below it is news. As the bound rises with the budget and the stair does not
   * until the next one, it is enough to look at the last cent before each stair.
   */
  narrow(budgets: Budgets, bound: (budget: number) => number): void {
    let at = this.below(budgets.high);
    while (at >= 0 && budgets.high >= budgets.low) {
      const stair = this.stairs[at];
      if (stair === undefined || isNews(bound(budgets.high), stair.benefit)) break;
      budgets.high = stair.price - 1;
      at--;
    }
    at = this.below(budgets.low);
    while (budgets.high >= budgets.low) {
      const next = this.stairs[at + 1];
      const last = Math.min(budgets.high, (next?.price ?? Infinity) - 1);
      const stair = this.stairs[at];
      if (stair === undefined || isNews(bound(last), stair.benefit)) break;
      budgets.low = last + 1;
      at++;
    }
  }
}

const isNews = (bound: number, benefit: number): boolean =>
  bound >= benefit + 1 - HAIR * Math.max(1, benefit * 1e-4);
