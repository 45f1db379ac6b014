import { ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { compareToLimit } from './compare-to-limit.js';
import type { Limit, LimitFault } from './compare-to-limit.js';
import type { Reading } from './observation.js';

/**
 * Several readings of one thing (inner, middle and outer groove) against one limit: beyond as soon as one is, because
 * the worst place counts. Null when nothing was measured.
 */
export function worstAgainstLimit(
  readings: readonly Pick<Reading, 'value' | 'unit'>[],
  limit: Limit,
): Result<'within' | 'beyond' | null, LimitFault> {
  let worst: 'within' | 'beyond' | null = null;
  for (const reading of readings) {
    const found = compareToLimit(reading, limit);
    if (!found.ok) return found;
    if (worst !== 'beyond') worst = found.value;
  }
  return ok(worst);
}
