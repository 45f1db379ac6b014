import { bookHundredths, seconds } from '#libs/kernel';
import { triangularQuantiles } from '#libs/range';
import { expectedRemainingMinutes } from '#libs/schedule';
import type { WorkOrderFactsRow } from '../../work-orders/index.js';
import type { WorkFacts } from './plan-facts.query.js';

/** What is left of a work order in whole minutes, and the time that is kept in four of five cases where it is known. */
export interface ExpectedWork {
  readonly minutes: number;
  readonly minutesP80?: number;
}

const FOUR_OF_FIVE = 0.8;

/**
 * The one place that says how long work will take: its book hours, with what happened under way, less what was clocked.
 * The spread is that of its line (triangular, as ranges are drawn), in proportion to what is left.
 */
export function expectedWork(
  { bookHundredths: book, clockedSeconds }: WorkOrderFactsRow,
  spread: WorkFacts['spread'] | undefined,
): ExpectedWork {
  const minutes = expectedRemainingMinutes(bookHundredths(book), seconds(clockedSeconds));
  if (spread == null || spread.likely <= 0) return { minutes };
  const { low, likely, high } = spread;
  const within = { low: Math.min(low, likely), likely, high: Math.max(high, likely) };
  const [kept = likely] = triangularQuantiles(Float64Array.of(FOUR_OF_FIVE), within);
  return { minutes, minutesP80: Math.max(minutes, Math.ceil((minutes * kept) / likely)) };
}
