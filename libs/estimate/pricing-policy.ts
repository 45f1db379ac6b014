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

export interface SuppliesRule {
  /** Of labour. */
  readonly ratePpm: Ppm;
  readonly floorCents: Cents;
  readonly capCents: Cents | null;
}

/** How a shop prices, as it was when the revision was frozen. */
export interface PricingPolicy {
  readonly taxes: readonly TaxRule[];
  readonly taxRounding: TaxRounding;
  readonly supplies: SuppliesRule | null;
}
