import { bookToSeconds, seconds } from '#libs/kernel';
import type { BookHundredths, Cents, Seconds } from '#libs/kernel';
import { ratio } from './ratio.js';
import type { Ratio } from './ratio.js';

/** What was sold and what was clocked: of a line, or of several added up. */
export interface SoldAndClocked {
  readonly soldHundredths: BookHundredths;
  readonly clockedSeconds: Seconds;
  readonly labourCents: Cents;
  /** All items with core deposits, as sold. */
  readonly partsCents: Cents;
}

export interface Comparison extends SoldAndClocked {
  readonly soldSeconds: Seconds;
  /** Sold less clocked: above zero when the work took less than was sold. */
  readonly differenceSeconds: number;
  readonly clockedPerSold: Ratio;
  readonly soldPerClocked: Ratio;
}

/** Book time against clocked time, exactly: a hundredth of an hour is 36 seconds. */
export function compareLine({
  soldHundredths,
  clockedSeconds,
  labourCents,
  partsCents,
}: SoldAndClocked): Comparison {
  const soldSeconds = bookToSeconds(soldHundredths);
  const [sold, clocked] = ['book hours sold', 'hours clocked on them'];
  return {
    soldHundredths,
    clockedSeconds,
    labourCents,
    partsCents,
    soldSeconds,
    differenceSeconds: seconds(soldSeconds - clockedSeconds),
    clockedPerSold: ratio(clocked, clockedSeconds, sold, soldSeconds),
    soldPerClocked: ratio(sold, soldSeconds, clocked, clockedSeconds),
  };
}
