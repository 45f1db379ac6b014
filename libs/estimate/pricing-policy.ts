import type { Cents, Ppm } from '#libs/kernel';
import type { ItemKind } from './estimate-line.js';

export type TaxKind = 'labour' | ItemKind | 'supplies';

/** One tax and what it falls on. Rates and what is taxable are the shop's data; local law decides. */
export interface TaxRule {
  readonly name: string;
  readonly ratePpm: Ppm;
  /** A core deposit is taxed where `part` is. */
  readonly on: readonly TaxKind[];
}

/**
 * `line`: each tax is rounded on each line; `invoice`: each tax is rounded once on the whole choice and spread over
 * the lines. The seller may choose (Streamlined Sales and Use Tax Agreement s. 324(B)).
 */
export type TaxRounding = 'line' | 'invoice';

/** What supplies are a share of: labour, parts and fluids, or both, after discounts. */
export const SUPPLIES_BASES = ['labour', 'parts', 'labour-and-parts'] as const;
export type SuppliesBase = (typeof SUPPLIES_BASES)[number];

export interface SuppliesRule {
  /** Of its base. */
  readonly ratePpm: Ppm;
  readonly floorCents: Cents;
  readonly capCents: Cents | null;
  /** Labour where nothing is said. */
  readonly base?: SuppliesBase;
}

/** How a shop prices, as it was when the revision was frozen. */
export interface PricingPolicy {
  readonly taxes: readonly TaxRule[];
  readonly taxRounding: TaxRounding;
  /**
   * All taxes are rounded once together and the cents split over them by largest remainder, instead of each by itself. "The rounding
   * rule may be applied to the aggregated state and local taxes" (Streamlined Sales and Use Tax Agreement s. 324).
   */
  readonly taxesCombined?: boolean;
  readonly supplies: SuppliesRule | null;
}
