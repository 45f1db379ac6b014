import type { BookHundredths, Cents } from '#libs/kernel';
import type { Breakdown } from './breakdown.js';

export interface TaxFigure {
  readonly name: string;
  readonly cents: Cents;
}

/** The figures of one line or of a whole choice. total = labour + parts + core + supplies + tax. */
export interface Figures {
  readonly hundredths: BookHundredths;
  readonly labourCents: Cents;
  /** All items: parts, fluids, sublet, fees; without core deposits. */
  readonly partsCents: Cents;
  readonly coreCents: Cents;
  readonly suppliesCents: Cents;
  readonly taxCents: Cents;
  /** One for each tax of the policy, in its order. */
  readonly taxes: readonly TaxFigure[];
  /**
   * What was taken off: discounts on labour and items, no-charge labour, its part of the order discount. It informs only:
   * labour and parts above are what is left to pay.
   */
  readonly discountCents: Cents;
  readonly totalCents: Cents;
}

interface EveryLine {
  readonly id: string;
  /** Its figures if it were the only one chosen, without an amount off the order, which is given once for all of it. */
  readonly alone: Figures;
  readonly aloneHundredths: BookHundredths;
  readonly aloneTotalCents: Cents;
}

/** A line that is in the choice: what it carries of the choice's figures. */
export interface ChosenLinePrice extends EveryLine, Figures {
  readonly chosen: true;
  /** Its part of an order discount by amount; kept with the decision, so that the amount is given once. */
  readonly orderDiscountCents: Cents;
  /** What supplies are a share of; kept with the decision, so that floor and cap hold once for the repair order. */
  readonly suppliesBaseCents: Cents;
  readonly breakdown: Breakdown;
}

/** A line that is not in the choice: what the choice would cost and last more with it. */
export interface OpenLinePrice extends EveryLine {
  readonly chosen: false;
  readonly ifAddedCents: Cents;
  readonly ifAddedHundredths: BookHundredths;
}

export type LinePrice = ChosenLinePrice | OpenLinePrice;

export interface ChoiceTotals extends Figures {
  readonly breakdown: Breakdown;
}

/** A package that the choice puts in force. */
export interface PackageInForce {
  /** `packageKey`. */
  readonly key: string;
  readonly name: string;
  readonly lineIds: readonly string[];
}

/** Every line in the order given, and the choice as a whole; the chosen lines add up to the totals in every figure. */
export interface ChoicePrice {
  readonly lines: readonly LinePrice[];
  readonly totals: ChoiceTotals;
  readonly packages: readonly PackageInForce[];
}
