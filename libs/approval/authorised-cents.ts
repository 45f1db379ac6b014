import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import type { Decision } from './decision.js';
import { latestDecisions } from './latest-decisions.js';

/**
 * The sum, tax included, that the owner has agreed to so far: what was shown for each line whose latest answer is a
 * yes. Derived every time and never stored, so that it cannot disagree with the decisions.
 * `decisions` is in the order of recording.
 */
export function authorisedCents(decisions: readonly Decision[]): Cents {
  let sum = 0;
  for (const decision of latestDecisions(decisions).values()) {
    if (decision.answer === 'approved') sum += decision.shownTotalCents;
  }
  return cents(sum);
}
