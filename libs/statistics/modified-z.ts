import { mad } from './mad.js';
import { median } from './median.js';

/** Above this size a value deserves a look (a forgotten clock-off). */
export const MODIFIED_Z_LIMIT = 3.5;

/**
 * How far `value` lies from the others, 0.6745 (value - median) / MAD. Null when there are no others or when more than
 * half of them are equal, where the measure has no scale.
 *
 * Source: B. Iglewicz and D. Hoaglin (1993), as in NIST/SEMATECH e-Handbook 1.3.5.17.
 */
export function modifiedZ(value: number, values: readonly number[]): number | null {
  const middle = median(values);
  const spread = mad(values);
  return middle === null || spread === null || spread === 0 ? null : (0.6745 * (value - middle)) / spread;
}
