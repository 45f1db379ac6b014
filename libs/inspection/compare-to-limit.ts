import { fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';
import { compareExact, exactOf, inBaseUnit } from './exact.js';
import type { Reading } from './observation.js';
import { dimensionOf } from './units.js';
import type { Unit } from './units.js';

/** A limit to hold a reading against. The value exactly at the limit is within it. */
export interface Limit {
  /** `min`: not less than this; `max`: not more than this. */
  readonly comparator: 'min' | 'max';
  /** A decimal number as text. */
  readonly value: string;
  readonly unit: Unit;
  /** Where the limit comes from; shown beside it. */
  readonly source: string;
}

export type LimitFault = Fault<'reading-not-a-number' | 'unit-does-not-fit'>;

/**
 * Whether a reading keeps a limit: a proposal, and no more. The technician decides and may overrule it with a reason;
 * the vehicle maker's figure and local rules come before ours. Units of one dimension are compared exactly.
 *
 * @example compareToLimit({ value: '1.59', unit: 'mm' }, { comparator: 'min', value: '2', unit: 'in/32', source })
 *   // 'within': 2/32 in is 1.5875 mm
 */
export function compareToLimit(
  reading: Pick<Reading, 'value' | 'unit'>,
  limit: Limit,
): Result<'within' | 'beyond', LimitFault> {
  const taken = exactOf(reading.value);
  const bound = exactOf(limit.value);
  if (taken === null || bound === null) {
    const bad = taken === null ? reading.value : limit.value;
    return fail('reading-not-a-number', `"${bad}" is not a number such as 4.5.`);
  }
  if (dimensionOf(reading.unit) !== dimensionOf(limit.unit)) {
    return fail(
      'unit-does-not-fit',
      `A reading in ${reading.unit} cannot be held against a limit in ${limit.unit}.`,
    );
  }
  const order = compareExact(inBaseUnit(taken, reading.unit), inBaseUnit(bound, limit.unit));
  const keeps = limit.comparator === 'min' ? order >= 0 : order <= 0;
  return ok(keeps ? 'within' : 'beyond');
}
