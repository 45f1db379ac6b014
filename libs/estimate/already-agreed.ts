import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';

/** What the owner has agreed to before and outside a choice: it is paid for and costs nothing more. */
export interface AlreadyAgreed {
  readonly steps: readonly { readonly step: string; readonly position: string }[];
  readonly labourCents: Cents;
  readonly suppliesCents: Cents;
}

export const NOTHING_AGREED: AlreadyAgreed = { steps: [], labourCents: cents(0), suppliesCents: cents(0) };
