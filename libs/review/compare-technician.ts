import { bookToSeconds } from '#libs/kernel';
import type { Seconds } from '#libs/kernel';
import { compareLine } from './compare-line.js';
import type { Comparison, SoldAndClocked } from './compare-line.js';
import { ratio } from './ratio.js';
import type { Ratio } from './ratio.js';
import { sumCompared } from './sum-compared.js';

export interface TechnicianComparison extends Comparison {
  readonly attendedSeconds: Seconds;
  readonly clockedPerAttended: Ratio;
  readonly soldPerAttended: Ratio;
}

/**
 * A technician over a period: the book hours credited to them (`creditBook` where several worked on a line), what they
 * clocked on those, and how long they were in the building.
 */
export function compareTechnician(
  lines: readonly SoldAndClocked[],
  attendedSeconds: Seconds,
): TechnicianComparison {
  const compared = compareLine(sumCompared(lines));
  const attended = 'hours attended';
  return {
    ...compared,
    attendedSeconds,
    clockedPerAttended: ratio('hours clocked on jobs', compared.clockedSeconds, attended, attendedSeconds),
    soldPerAttended: ratio(
      'book hours sold',
      bookToSeconds(compared.soldHundredths),
      attended,
      attendedSeconds,
    ),
  };
}
