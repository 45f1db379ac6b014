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
  readonly totalCents: Cents;
}

interface EveryLine {
  readonly id: string;
  /** Its figures if it were the only one chosen. */
  readonly alone: Figures;
  readonly aloneHundredths: BookHundredths;
  readonly aloneTotalCents: Cents;
}

/** A line that is in the choice: what it carries of the choice's figures. */
export interface ChosenLinePrice extends EveryLine, Figures {
  readonly chosen: true;
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

/** Every line in the order given, and the choice as a whole; the chosen lines add up to the totals in every figure. */
export interface ChoicePrice {
  readonly lines: readonly LinePrice[];
  readonly totals: ChoiceTotals;
}
