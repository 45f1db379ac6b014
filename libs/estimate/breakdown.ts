import type { BookHundredths, Cents } from '#libs/kernel';

interface Explained {
  /** What it is: total, labour, hours, step, parts, item, core deposits, supplies, tax. */
  readonly figure: string;
  /** Which one: a line's, item's or step's name, a tax's name, a rate. */
  readonly of?: string;
  /** How the figure follows from its inputs; `SUM` where they simply add up. */
  readonly rule: string;
  readonly inputs: readonly Breakdown[];
}

/** How one figure came about, so that a screen can unfold it down to what was entered. */
export type Breakdown = Explained & ({ readonly cents: Cents } | { readonly hundredths: BookHundredths });

export const SUM = 'sum of the figures below';
