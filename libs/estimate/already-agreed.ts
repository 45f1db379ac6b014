import { cents } from '#libs/kernel';
import type { BookHundredths, Cents } from '#libs/kernel';

export interface AgreedStep {
  readonly step: string;
  readonly position: string;
  /** How much of it is agreed to, where that is not all of it: one of two lines that share it was given up since. */
  readonly hundredths?: BookHundredths;
}

/** What the owner has agreed to before and outside a choice: it is paid for and costs nothing more. */
export interface AlreadyAgreed {
  /** Each pair once. */
  readonly steps: readonly AgreedStep[];
  readonly labourCents: Cents;
  readonly suppliesCents: Cents;
}

export const NOTHING_AGREED: AlreadyAgreed = { steps: [], labourCents: cents(0), suppliesCents: cents(0) };
