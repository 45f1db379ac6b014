import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import type { OfferedContingency } from './contingency-answer.js';

/**
 * The most that may still be added to the authorised amount without asking again: the caps that are agreed to, of what
 * has not happened. What has happened is charged, and is part of the authorised amount.
 */
export function contingentCents(
  contingencies: readonly Pick<OfferedContingency, 'capCents' | 'agreed' | 'triggered'>[],
): Cents {
  const open = contingencies.filter(({ agreed, triggered }) => agreed === true && !triggered);
  return cents(open.reduce((sum, { capCents }) => sum + capCents, 0));
}
