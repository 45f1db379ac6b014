import { bookHundredths, fail, ok, type BookHundredths, type Result } from '#libs/kernel';
import type { LabourFault } from './labour-operation.js';

/** Adds up the hours of distinct pairs. */
export function sumHours(
  hours: ReadonlyMap<string, bigint>,
  keys: Iterable<string>,
): Result<BookHundredths, LabourFault> {
  let total = 0n;
  for (const key of keys) total += hours.get(key) ?? 0n;
  if (total > BigInt(Number.MAX_SAFE_INTEGER)) {
    return fail(
      'book-hours-too-large',
      'The book hours add up to more than can be kept exactly: check the steps.',
    );
  }
  return ok(bookHundredths(Number(total)));
}
