import { cents, ok } from '#libs/kernel';
import type { Cents, Result } from '#libs/kernel';
import { checkChoice } from './check-choice.js';
import type { ChoiceFault } from './check-choice.js';
import type { EstimateLine } from './estimate-line.js';
import { prepareEstimate } from './prepare-estimate.js';
import type { PricingTerms } from './prepare-estimate.js';
import { totalOfChoice } from './total-of-choice.js';

/** The total of a choice of lines, which are members of the list that the pricer was made for. */
export type TotalPricer = (chosen: readonly EstimateLine[]) => Cents;

/**
 * Checks an estimate once and prices any choice of its lines: the total of `priceChoice`, without its lines and
 * explanations. For searches, which ask thousands of times.
 */
export function totalPricer(input: PricingTerms): Result<TotalPricer, ChoiceFault> {
  const checked = checkChoice({ ...input, chosen: [] });
  if (!checked.ok) return checked;
  const prepared = prepareEstimate(input);
  const total = totalOfChoice(prepared);
  return ok((chosen) => {
    const lines = chosen.map(({ id }) => {
      const line = prepared.byId.get(id);
      if (line === undefined) throw new RangeError(`line "${id}" is not part of this estimate`);
      return line;
    });
    return cents(total(lines).totalCents);
  });
}
