import type { Cents, Fault, Ppm } from '#libs/kernel';
import type { Spread } from './spread.js';

/** A chosen line. Its labour is what it carries of the choice, so that a shared step is in the sum once. */
export interface RangeLine {
  readonly id: string;
  /** Cents before tax; hours at the line's rate (`labourSpread`, `carriedSpread`). */
  readonly labour: Spread;
  /** Cents before tax: parts, fluids, sublet, fees, core deposits. */
  readonly items: Spread;
  /** Tax on the items, all taxes together. Lines differ where taxes fall on some kinds of item only. */
  readonly itemsTaxPpm: Ppm;
  /** How much of the items shop supplies may follow: parts and fluids do, fees and deposits do not. All of it unless given. */
  readonly itemsBearPpm?: Ppm;
}

/** An extra that is charged only if a named thing happens; labour and items come together or not at all. */
export interface RangeContingency extends RangeLine {
  readonly chancePpm: Ppm;
  /** The most that it may add to the total, supplies and tax included; null where nothing limits it. */
  readonly capCents: Cents | null;
}

/** A checkpoint that could not be seen: with this chance it turns out to need this much, tax included. */
export interface RangeUnseen {
  readonly id: string;
  readonly chancePpm: Ppm;
  readonly cents: Spread;
}

/** Shop supplies as a share of what lines and contingencies come to in a draw; an unseen checkpoint has its own in it. */
export interface RangeSupplies {
  readonly ratePpm: Ppm;
  readonly floorCents: Cents;
  readonly capCents: Cents | null;
  readonly base: 'labour' | 'parts' | 'labour-and-parts';
  /** What was agreed to before, in the terms of the base, and the supplies agreed to with it. */
  readonly givenBaseCents: Cents;
  readonly givenSuppliesCents: Cents;
  readonly taxPpm: Ppm;
}

export interface RangeInput {
  readonly lines: readonly RangeLine[];
  readonly contingencies: readonly RangeContingency[];
  readonly unseen: readonly RangeUnseen[];
  /**
   * Standard deviation of the common factor (corrosion, age), as a share: 150 000 is 0.15. One lognormal number with
   * mean 1 per draw multiplies the labour of all lines and contingencies.
   */
  readonly commonSpreadPpm: Ppm;
  readonly labourTaxPpm: Ppm;
  readonly supplies: RangeSupplies | null;
  /** In every draw as it is: what is agreed to already. */
  readonly fixedCents: Cents;
  /**
   * The exact price of the lines as they stand, `fixedCents` left out, where it is known: what the rounding of single
   * cents makes of it is then put right in every draw, so that without any spread the range is that price.
   */
  readonly likelyCents?: Cents;
}

export interface RangeEffort {
  /** Any whole number from zero up; the same one gives the same range. */
  readonly seed: number;
  /** From 100 to 100 000. */
  readonly draws: number;
}

export type RangePartKind = 'line' | 'contingency' | 'unseen' | 'common';

export interface RangeShare {
  readonly kind: RangePartKind;
  /** Null for the common factor. */
  readonly id: string | null;
  /** Of the variance of the total. All shares add up to exactly 1 000 000, or are zero where nothing varies. */
  readonly sharePpm: Ppm;
}

/** What the total comes to: in half of all cases at most P50, in eight of ten at most P80. Tax and supplies are in it. */
export interface Range {
  readonly p10Cents: Cents;
  readonly p50Cents: Cents;
  readonly p80Cents: Cents;
  readonly p95Cents: Cents;
  readonly meanCents: Cents;
  /** Standard deviation. */
  readonly sdCents: Cents;
  readonly draws: number;
  readonly seed: number;
  /** Lines, contingencies, unseen checkpoints in the order given, then the common factor. */
  readonly shares: readonly RangeShare[];
}

/**
 * `figure-invalid`: an amount, chance or rate that is not a whole number within its bounds. `spread-out-of-order`: a low
 * above the likely, or a likely above the high. `part-listed-twice`: one id for two of a kind.
 */
export type RangeFault = Fault<'figure-invalid' | 'spread-out-of-order' | 'part-listed-twice'>;
