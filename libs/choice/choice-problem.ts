import type { Cents, Fault } from '#libs/kernel';
import type { PriceModel } from './price-model.js';

/** One line that may be chosen. */
export interface ChoiceLine {
  readonly id: string;
  /** How much it is worth to have done: a whole number from zero up, on the shop's own scale (`benefitOf`). */
  readonly benefit: number;
  /** What it costs besides its steps: parts, fluids, sublet. Not read when the problem brings its own price model. */
  readonly cents?: Cents;
  /** The steps it uses, each paid once however many chosen lines use it. Not read under a price model either. */
  readonly steps?: readonly string[];
  /** Lines without which this one makes no sense. */
  readonly requires?: readonly string[];
  /** Lines that this one stands in for; it does not matter which of the two says so. */
  readonly excludes?: readonly string[];
  /** It is in whatever the budget: the car is unsafe without it. */
  readonly mustInclude?: boolean;
}

export interface ChoiceStep {
  readonly id: string;
  readonly cents: Cents;
}

/** What may be chosen, and what each choice costs. */
export interface ChoiceProblem {
  readonly lines: readonly ChoiceLine[];
  readonly steps?: readonly ChoiceStep[];
  /**
   * Lines that the owner has approved before: their price is outside the budget, their steps cost nothing more, what
   * requires them may be chosen and what they exclude may not. Their benefit is not counted again.
   */
  readonly given?: readonly string[];
  /** How a set is priced; without one its price is the sum of its lines' cents and of its distinct steps. */
  readonly prices?: PriceModel;
}

export interface BudgetProblem extends ChoiceProblem {
  /** The most that the owner would pay, in the terms of the price: with tax where the model adds it. */
  readonly budgetCents: Cents;
}

/** How long to look and by which clock. A result that is proven does not depend on either. */
export interface Effort {
  /** Milliseconds of `now`. */
  readonly timeLimitMs: number;
  /** Milliseconds from any fixed point; never asked for the date. */
  readonly now: () => number;
  /** Steers the search for a good first choice. */
  readonly seed: number;
}

/** The best choice found. */
export interface Choice {
  /** Ids in the order of the problem's lines. */
  readonly chosen: readonly string[];
  readonly benefit: number;
  readonly priceCents: Cents;
  /** No other choice within the budget has more benefit, and none with as much costs less. */
  readonly proven: boolean;
  /** No choice within the budget has more benefit than this. */
  readonly upperBound: number;
  /** How many partial choices were looked at. */
  readonly nodes: number;
}

/** One budget at which the best choice changes. */
export interface Rung {
  /** The least budget that buys this. */
  readonly priceCents: Cents;
  readonly benefit: number;
  readonly chosen: readonly string[];
}

/** From the least that includes what must be included, to everything worth having. */
export interface Ladder {
  /** Price and benefit both rise from rung to rung. */
  readonly rungs: readonly Rung[];
  /** At every budget the best choice is the dearest rung that the budget reaches. */
  readonly proven: boolean;
}

/**
 * `line-listed-twice`, `step-listed-twice`: one id for two. `line-unknown`, `step-unknown`: an id that nothing has.
 * `figure-invalid`: a benefit or an amount that is not a whole number from zero up, or too large to add exactly.
 * `must-include-conflict`: two lines that must both be in exclude each other. `must-include-too-dear`: what must be
 * in costs more than the budget; `facts.leastCents` is the least budget that would do.
 */
export type ChoiceProblemFault = Fault<
  | 'line-listed-twice'
  | 'step-listed-twice'
  | 'line-unknown'
  | 'step-unknown'
  | 'figure-invalid'
  | 'must-include-conflict'
  | 'must-include-too-dear'
>;
