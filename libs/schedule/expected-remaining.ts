import { bookToSeconds } from '#libs/kernel';
import type { BookHundredths, Seconds } from '#libs/kernel';

/** What is always still to do on work that was begun and is not finished, whatever the clock says. */
const LEAST_SECONDS = 15 * 60;

/**
 * Whole minutes of work that are still expected, rounded up, at least 1: the expected hours less what was clocked, but
 * never less than a quarter of the expected hours nor than a quarter of an hour, as long as that is not more than the
 * work as a whole. A clock that has passed the book says that the book was wrong, not that the work is done; how much is
 * then left nobody knows, and a plan that says "any moment" all afternoon misleads everybody who waits. Common practice,
 * no source.
 */
export function expectedRemainingMinutes(expected: BookHundredths, clocked: Seconds): number {
  const whole: number = bookToSeconds(expected);
  const least = Math.min(Math.max(whole, 1), Math.max(Math.ceil(whole / 4), LEAST_SECONDS));
  // Work without book hours (a warranty check, goodwill) still takes a moment of somebody's time.
  const left = whole === 0 ? LEAST_SECONDS : Math.max(whole - clocked, least);
  return Math.ceil(left / 60);
}
