import { HAIR } from './goal.js';
import type { Budgets, Found, Goal } from './goal.js';

/** The most benefit within a budget, and the least price for it. */
export class BestGoal implements Goal {
  best: Found | null = null;

  constructor(private readonly budget: number) {}

  wants(benefit: number, price: number): boolean {
    if (price > this.budget) return false;
    const { best } = this;
    return best === null || benefit > best.benefit || (benefit === best.benefit && price < best.price);
  }

  offer(found: Found): void {
    if (this.wants(found.benefit, found.price)) this.best = found;
  }

  narrow(budgets: Budgets, bound: (budget: number) => number): void {
    const { best } = this;
    if (best === null) return;
    const slack = HAIR * Math.max(1, best.benefit * 1e-4);
    if (budgets.high >= best.price && bound(budgets.high) < best.benefit + 1 - slack)
      budgets.high = best.price - 1;
    if (budgets.high < best.price && bound(budgets.high) < best.benefit - slack) budgets.high = -1;
  }
}
