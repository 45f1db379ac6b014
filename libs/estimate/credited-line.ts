import type { Figures } from './choice-price.js';

/** What comes back with one line. */
export interface CreditedLine {
  readonly id: string;
  /** Whether all of it was given back. */
  readonly isWhole: boolean;
  /** Zero or less, every one of them. */
  readonly figures: Figures;
}
