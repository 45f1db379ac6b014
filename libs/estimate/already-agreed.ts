import { cents } from '#libs/kernel';
import type { BookHundredths, Cents } from '#libs/kernel';

export interface AgreedStep {
  readonly step: string;
  readonly position: string;
  /** How much of it is agreed to, where that is not all of it: one of two lines that share it was given up since. */
  readonly hundredths?: BookHundredths;
  /** The package under which it was agreed to (`packageKey`), where all of it was. */
  readonly package?: string;
}

/** Lines that were agreed to under a package: the others of it keep its hours. */
export interface AgreedPackage {
  readonly package: string;
  readonly lineIds: readonly string[];
}

/** What the owner has agreed to before and outside a choice: it is paid for and costs nothing more. */
export interface AlreadyAgreed {
  /** Each pair once. */
  readonly steps: readonly AgreedStep[];
  readonly labourCents: Cents;
  readonly suppliesCents: Cents;
  /** What those supplies were a share of; the labour where nothing is said. */
  readonly suppliesBaseCents?: Cents;
  /** What of this revision's order discount by amount was given with lines that are no longer open; not of other revisions. */
  readonly orderDiscountCents?: Cents;
  readonly packages?: readonly AgreedPackage[];
}

export const NOTHING_AGREED: AlreadyAgreed = { steps: [], labourCents: cents(0), suppliesCents: cents(0) };
