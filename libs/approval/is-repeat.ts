import { saysTheSame } from './standing-decision.js';
import type { GivenAnswer, Standing } from './standing-decision.js';

interface RepeatInput {
  readonly answers: readonly GivenAnswer[];
  readonly standing: Standing;
  readonly begun: ReadonlySet<string>;
  /** The total that the sender was shown. */
  readonly expectedTotalCents: number;
}

/**
 * Whether these very answers are recorded already, at the total that the sender was shown: the page was sent twice, or
 * the answer to the first sending was lost. Work may have begun in between; that takes nothing away from the repeat.
 */
export function isRepeat({ answers, standing, begun, expectedTotalCents }: RepeatInput): boolean {
  if (!answers.every((given) => saysTheSame(given, standing.get(given.lineId)))) return false;
  const approved = [...standing].filter(([, decision]) => decision.answer === 'approved');
  const total = (entries: typeof approved): number =>
    entries.reduce((sum, [, decision]) => sum + decision.shownTotalCents, 0);
  const open = approved.filter(([lineId]) => !begun.has(lineId));
  return expectedTotalCents === total(approved) || expectedTotalCents === total(open);
}
