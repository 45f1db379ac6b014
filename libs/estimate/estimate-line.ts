import type { Cents } from '#libs/kernel';
import type { LabourStep } from '#libs/labour';

export const ITEM_KINDS = ['part', 'fluid', 'sublet', 'fee'] as const;
export type ItemKind = (typeof ITEM_KINDS)[number];

/** Something that is sold with a line beside its labour. */
export interface EstimateItem {
  readonly id: string;
  readonly kind: ItemKind;
  /** Whole hundredths of its unit: two pads are 200, 4.5 litres are 450. */
  readonly quantityHundredths: number;
  readonly unitPriceCents: Cents;
  /** The deposit on the returnable old part, for each unit; taxed like a part. */
  readonly coreCents?: Cents;
}

/** One proposed piece of work, as far as its price goes. */
export interface EstimateLine {
  readonly id: string;
  /** The distinct steps of all its operations, at their positions (`expandLine`). */
  readonly steps: readonly LabourStep[];
  readonly rateId: string;
  readonly rateCentsPerHour: Cents;
  readonly items: readonly EstimateItem[];
}
