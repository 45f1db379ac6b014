import { cents } from '#libs/kernel';
import { scoreRange, seedOf, type Range, type RangeScore } from '#libs/range';
import { rangeOfAgreed } from '#libs/review';
import type { SentAndAgreed } from '../queries/agreed-revisions.query.js';
import type { ReviewedLineRow } from '../queries/reviewed-lines.query.js';

/** As many as a range has that is shown before the job, with the seed of the same revision: the same figures again. */
const DRAWS = 10_000;

/** A vehicle that was picked up: what was said, and what it came to. */
export interface ScoredOrder {
  readonly range: Range;
  readonly score: RangeScore;
  /** False where the range is a single amount. */
  readonly isUncertain: boolean;
  readonly contingencyCents: number;
  readonly laterCents: number;
}

export const isDone = ({ checkedAt }: ReviewedLineRow): boolean => checkedAt !== null;

export const totalOf = (rows: readonly { totalCents: number }[]): number =>
  rows.reduce((sum, { totalCents }) => sum + totalCents, 0);

/** Null where nothing was agreed to, or what was sent gives no range. */
export function scoreOrder(
  revisions: readonly SentAndAgreed[],
  lines: readonly ReviewedLineRow[],
): ScoredOrder | null {
  const [first] = revisions;
  if (first === undefined) return null;
  const drawn = rangeOfAgreed(revisions, { seed: seedOf(first.revisionId), draws: DRAWS });
  if (!drawn.ok || drawn.value === null) return null;
  const done = lines.filter(isDone);
  const known = new Set(revisions.flatMap(({ agreed }) => [...agreed.keys()]));
  return {
    range: drawn.value,
    score: scoreRange(drawn.value, cents(totalOf(done))),
    isUncertain: drawn.value.shares.some(({ sharePpm }) => sharePpm > 0),
    contingencyCents: done.reduce((sum, { contingencyCents }) => sum + contingencyCents, 0),
    laterCents: totalOf(done.filter(({ lineId }) => !known.has(lineId))),
  };
}
