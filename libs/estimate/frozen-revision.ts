import type { AlreadyAgreed } from './already-agreed.js';
import type { Figures } from './choice-price.js';
import type { EstimateItem, EstimateLine } from './estimate-line.js';
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
}

/** Who, what and when, as shown: plain values under names of the server's choice. */
export type RevisionAbout = Readonly<Record<string, string | number | boolean | null>>;

export interface RevisionToFreeze {
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
export interface FrozenRevision {
  readonly format: 1;
  readonly about: RevisionAbout;
  readonly lines: readonly FrozenLine[];
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
  /** With all lines chosen. */
  readonly totals: Figures;
}
