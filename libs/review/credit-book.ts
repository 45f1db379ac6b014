import { bookHundredths } from '#libs/kernel';
import type { BookHundredths, Seconds } from '#libs/kernel';
import { compareCodePoints } from '#libs/labour';
import { largestRemainder } from '#libs/money';

/**
 * The book hours of one line, credited to the technicians who clocked on it in proportion to their time; whole hundredths by
 * largest remainder, so that they add up to what was sold. Nobody clocked: nobody is credited.
 */
export function creditBook(
  soldHundredths: BookHundredths,
  clocked: ReadonlyMap<string, Seconds>,
): Map<string, BookHundredths> {
  const people = [...clocked]
    .filter(([, time]) => time > 0)
    .sort(([left], [right]) => compareCodePoints(left, right));
  if (people.length === 0) return new Map();
  const parts = largestRemainder(
    BigInt(soldHundredths),
    people.map(([, time]) => BigInt(time)),
  );
  return new Map(people.map(([id], at) => [id, bookHundredths(Number(parts[at] ?? 0n))]));
}
