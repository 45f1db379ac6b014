import { bookHundredths, cents, seconds } from '#libs/kernel';
import type { SoldAndClocked } from './compare-line.js';

/** Lines, orders or people added up, total by total. */
export function sumCompared(all: readonly SoldAndClocked[]): SoldAndClocked {
  const total = (key: keyof SoldAndClocked): number => all.reduce((sum, one) => sum + one[key], 0);
  return {
    soldHundredths: bookHundredths(total('soldHundredths')),
    clockedSeconds: seconds(total('clockedSeconds')),
    labourCents: cents(total('labourCents')),
    partsCents: cents(total('partsCents')),
  };
}
