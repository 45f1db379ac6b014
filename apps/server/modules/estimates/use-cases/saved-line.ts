import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { LineResponse } from '../dto/line.response.js';
import { revisionOf } from '../queries/estimate.query.js';
import { spreadFaults } from './spread-columns.js';

/** Four bytes in the database; a sum beyond it is a slip of the keyboard. */
const LARGEST_TOTAL = 2_000_000_000;

/**
 * A line as it is after it was saved. Its revision must still have a price: a line that makes it impossible is refused
 * here, while somebody is looking at it, and not when it is sent.
 */
export async function savedLine(tx: Tx, revisionId: string, lineId: string): Promise<Result<LineResponse>> {
  const revision = await revisionOf(tx, revisionId);
  if (!revision.ok) return revision;
  const line = revision.value.lines.find(({ id }) => id === lineId);
  if (!line) throw new Error('the line was just saved');
  const alone = revision.value.lines.reduce((sum, one) => sum + one.alone.totalCents, 0);
  if (Math.max(alone, revision.value.totals.totalCents) > LARGEST_TOTAL)
    return fail('request-invalid', 'The sum of this revision is too large. Look at quantities and prices.', {
      fields: [{ pointer: '/items', detail: 'The sum of this revision is too large.' }],
    });
  const fields = spreadFaults(line);
  if (fields.length > 0)
    return fail('request-invalid', 'The line itself lies outside of its spread.', { fields });
  return ok(line);
}
