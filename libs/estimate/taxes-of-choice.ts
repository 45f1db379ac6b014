import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { allocate, taxOn } from '#libs/money';
import type { PricingPolicy, TaxRule } from './pricing-policy.js';

/** One tax over all lines of a choice; `bases` and `perLine` are in the order of the lines. */
export interface TaxOfChoice {
  readonly rule: TaxRule;
  readonly bases: readonly Cents[];
  readonly perLine: readonly Cents[];
  readonly cents: Cents;
}

/**
 * Every tax of the policy on a choice, half up. Rounded by line, the total is the sum of the lines' taxes; rounded by
 * invoice, it is the tax on the sum, spread over the lines by largest remainder of what each is taxed on.
 */
export function taxesOfChoice(
  policy: Pick<PricingPolicy, 'taxes' | 'taxRounding'>,
  basesFor: (rule: TaxRule) => readonly Cents[],
): TaxOfChoice[] {
  return policy.taxes.map((rule) => {
    const bases = basesFor(rule);
    if (policy.taxRounding === 'line') {
      const perLine = bases.map((base) => taxOn(base, rule.ratePpm));
      return { rule, bases, perLine, cents: cents(perLine.reduce((sum, tax) => sum + tax, 0)) };
    }
    const whole = taxOn(cents(bases.reduce((sum, base) => sum + base, 0)), rule.ratePpm);
    return { rule, bases, perLine: allocate(whole, bases), cents: whole };
  });
}
