import type { BookHundredths, Cents, Ppm } from '#libs/kernel';
import type { AlreadyAgreed } from './already-agreed.js';
import type { Figures } from './choice-price.js';
import type { EstimateItem, EstimateLine } from './estimate-line.js';
import type { LinePackage } from './line-package.js';
import type { OrderDiscount } from './order-discount.js';
import type { PricingPolicy } from './pricing-policy.js';

export interface RevisionItem extends EstimateItem {
  /** What the owner reads. */
  readonly words: string;
  /** In words, for a part: new, used or rebuilt, and where it comes from. */
  readonly condition?: string | null;
}

/** Something that was measured, beside the limit that it was held against. */
export interface Measured {
  readonly reading: string;
  readonly limit: string | null;
  /** Where the limit comes from. */
  readonly source: string | null;
}

/** What a line is worth to its owner, and what it comes with, for choosing within a budget. */
export interface LineChoice {
  /** A whole number from zero up, on the shop's own scale. */
  readonly benefit: number;
  /** The benefit in words. */
  readonly why: string;
  readonly mustInclude: boolean;
  /** Ids of lines. */
  readonly requires: readonly string[];
  readonly excludes: readonly string[];
}

/** How much or little a line may come to; the line itself is what is likely. */
export interface LineSpread {
  readonly lowHundredths: BookHundredths;
  readonly highHundredths: BookHundredths;
  readonly lowItemsCents: Cents;
  readonly highItemsCents: Cents;
}

/** An extra that is charged only if a named thing happens. */
export interface FrozenContingency {
  readonly id: string;
  readonly what: string;
  readonly chancePpm: Ppm;
  readonly hundredths: BookHundredths;
  /** The most that the owner would pay for it. */
  readonly capCents: Cents;
  readonly items: readonly RevisionItem[];
}

/** A checkpoint that could not be reached, and what may be behind it. */
export interface FrozenUnseen {
  readonly checkpointId: string;
  readonly words: string;
  readonly chancePpm: Ppm;
  readonly lowCents: Cents;
  readonly likelyCents: Cents;
  readonly highCents: Cents;
}

/** A line with everything that the owner is shown about it. */
export interface RevisionLine extends EstimateLine {
  readonly title: string;
  /** The verdict in its word: Watch, Repair, Unsafe. Null for work that answers no finding: the owner asked for it. */
  readonly verdict: string | null;
  /** Whether the car may be driven with it, in words; null when that was not in question. */
  readonly mayDrive: string | null;
  /** What was found and why it matters. */
  readonly why: string;
  /** What happens if it waits; null where nothing was found that could wait. */
  readonly consequence: string | null;
  readonly measured?: readonly Measured[];
  /** Ids of photos. */
  readonly photos?: readonly string[];
  /** The operations, in words. */
  readonly operations: readonly string[];
  readonly items: readonly RevisionItem[];
  readonly choice?: LineChoice;
  readonly spread?: LineSpread;
  readonly contingencies?: readonly FrozenContingency[];
}

/** Who, what and when, as shown: plain values under names of the server's choice. */
export type RevisionAbout = Readonly<Record<string, string | number | boolean | null>>;

/** What belongs to the whole of a revision rather than to one line. */
interface RevisionExtras {
  readonly orderDiscount?: OrderDiscount;
  readonly packages?: readonly LinePackage[];
  readonly unseen?: readonly FrozenUnseen[];
  /** What the vehicle is worth, if the shop has entered it. */
  readonly vehicleValueCents?: Cents;
}

export interface RevisionToFreeze extends RevisionExtras {
  readonly about: RevisionAbout;
  readonly lines: readonly RevisionLine[];
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
}

export interface FrozenItem extends RevisionItem {
  readonly condition: string | null;
}

export interface FrozenLine extends RevisionLine {
  readonly items: readonly FrozenItem[];
  readonly measured: readonly Measured[];
  readonly photos: readonly string[];
  /** If it is the only line chosen. */
  readonly alone: Figures;
  /** With all lines of the revision chosen. */
  readonly together: Figures;
}

/** What was offered, complete: it can be shown again and priced for any choice from this document alone. */
export interface FrozenRevision extends RevisionExtras {
  /** Documents of format 1 know neither discounts nor what a range and a choice within a budget need (`readFrozen`). */
  readonly format: 1 | 2;
  readonly about: RevisionAbout;
  readonly lines: readonly FrozenLine[];
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
  /** With all lines chosen. */
  readonly totals: Figures;
}
