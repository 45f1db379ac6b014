import type { AlreadyAgreed } from './already-agreed.js';
import type { Figures } from './choice-price.js';
import type { EstimateItem, EstimateLine } from './estimate-line.js';
import type { PricingPolicy } from './pricing-policy.js';

export interface RevisionItem extends EstimateItem {
  /** What the owner reads. */
  readonly words: string;
}

/** A line with everything that the owner is shown about it. */
export interface RevisionLine extends EstimateLine {
  readonly title: string;
  /** The verdict in its word: Watch, Repair, Unsafe. */
  readonly verdict: string;
  /** Whether the car may be driven with it, in words; null when that was not in question. */
  readonly mayDrive: string | null;
  /** What was found and why it matters. */
  readonly why: string;
  /** What happens if it waits. */
  readonly consequence: string;
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

export interface FrozenLine extends RevisionLine {
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
