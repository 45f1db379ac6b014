import type { Cents, Ppm } from '#libs/kernel';
import type { LabourStep } from '#libs/labour';

export const ITEM_KINDS = ['part', 'fluid', 'sublet', 'fee'] as const;
export type ItemKind = (typeof ITEM_KINDS)[number];

/** Why the labour of a line is not charged. */
export const NO_CHARGES = ['warranty', 'goodwill', 'comeback'] as const;
export type NoCharge = (typeof NO_CHARGES)[number];

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

/** A step of a line, at a rate of its own where that is not the line's. */
export interface EstimateStep extends LabourStep {
  readonly rateId?: string;
  readonly rateCentsPerHour?: Cents;
}

/**
 * What a line is sold below its price. On labour it is a lower rate. On items it comes off parts, fluids and sublet, the
 * percentage first and then the amount, never more than they cost; fees and core deposits are passed on as they are.
 */
export interface LineDiscount {
  readonly labourPpm?: Ppm;
  readonly itemsPpm?: Ppm;
  readonly itemsCents?: Cents;
  /** What the owner reads. */
  readonly reason: string;
}

/** One proposed piece of work, as far as its price goes. */
export interface EstimateLine {
  readonly id: string;
  /** The distinct steps of all its operations, at their positions (`expandLine`). */
  readonly steps: readonly EstimateStep[];
  readonly rateId: string;
  readonly rateCentsPerHour: Cents;
  readonly items: readonly EstimateItem[];
  /** Its labour costs nothing; its book hours stay, for the floor and the review. */
  readonly noCharge?: NoCharge | null;
  readonly discount?: LineDiscount | null;
}
