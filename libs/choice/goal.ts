/** A set that was found, by index. */
export interface Found {
  readonly lines: readonly number[];
  readonly benefit: number;
  readonly price: number;
}

/** Budgets between which a search may still find something better; empty when high < low. */
export interface Budgets {
  low: number;
  high: number;
}

/** What a search is after. */
export interface Goal {
  /** Whether a set of this benefit would be news at this price or a little more. */
  readonly wants: (benefit: number, price: number) => boolean;
  readonly offer: (found: Found) => void;
  /**
   * Narrows the budgets between which more can be found, where `bound(budget)` is the most benefit that can be had at a
   * budget: it rises with the budget.
   */
  readonly narrow: (budgets: Budgets, bound: (budget: number) => number) => void;
}

/** A bound is computed in fractions; benefits are whole. */
export const HAIR = 1e-6;
