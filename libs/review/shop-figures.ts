import { cents } from '#libs/kernel';
import type { BookHundredths, Cents } from '#libs/kernel';
import { divideHalfUp } from '#libs/money';
import { ratio } from './ratio.js';
import type { Ratio } from './ratio.js';

/** A figure in a unit of its own, with the same label rule as a ratio. */
export interface RateFigure {
  readonly label: string;
  /** Cents per book hour; null without any book hours. */
  readonly centsPerHour: Cents | null;
}

/** Labour money after discounts for each book hour sold, half up. */
export function effectiveLabourRate(labourCents: Cents, soldHundredths: BookHundredths): RateFigure {
  const label = 'labour money ÷ book hours sold';
  if (soldHundredths === 0) return { label, centsPerHour: null };
  return {
    label,
    centsPerHour: cents(Number(divideHalfUp(BigInt(labourCents) * 100n, BigInt(soldHundredths)))),
  };
}

/** Book hours for each closed repair order; the numerator is in hundredths of an hour, the ratio in hours. */
export function hoursPerRepairOrder(soldHundredths: BookHundredths, closedOrders: number): Ratio {
  return ratio('book hours sold', soldHundredths, 'closed repair orders, in hundredths', closedOrders * 100);
}
