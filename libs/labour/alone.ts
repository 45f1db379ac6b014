import type { BookHundredths, Result } from '#libs/kernel';
import type { LabourFault, LabourOperation } from './labour-operation.js';
import { together } from './together.js';

/** Book hours of one operation by itself: the sum of its distinct steps. */
export function alone(operation: LabourOperation): Result<BookHundredths, LabourFault> {
  return together([operation]);
}
