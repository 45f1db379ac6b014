import { cents } from '#libs/kernel';
import { SUM } from './breakdown.js';
import type { Breakdown } from './breakdown.js';
import {
  explainClass,
  explainCores,
  explainItems,
  explainTax,
  sumOf,
  suppliesRuleText,
  taxText,
} from './explain.js';
import type { PricedSet, PricingTerms } from './price-set.js';
import type { TaxOfChoice } from './taxes-of-choice.js';

function explainWholeTax(tax: TaxOfChoice, set: PricedSet, terms: PricingTerms): Breakdown {
  if (terms.policy.taxRounding === 'invoice') {
    const base = cents(tax.bases.reduce((sum, one) => sum + one, 0));
    return explainTax(tax, tax.cents, base, `${taxText(tax, base)} once for the choice`);
  }
  const inputs = set.lines.map(({ line }, at) => {
    const base = tax.bases[at] ?? cents(0);
    return {
      figure: 'tax',
      of: line.id,
      cents: tax.perLine[at] ?? cents(0),
      rule: taxText(tax, base),
      inputs: [],
    };
  });
  return { figure: 'tax', of: tax.rule.name, cents: tax.cents, rule: SUM, inputs };
}

/** How the figures of the whole choice came about. */
export function explainTotal(set: PricedSet, terms: PricingTerms): Breakdown {
  return sumOf('total', [
    sumOf('labour', set.classes.map(explainClass)),
    explainItems(set.lines),
    explainCores(set.lines),
    { figure: 'supplies', cents: set.totals.suppliesCents, rule: suppliesRuleText(set, terms), inputs: [] },
    sumOf(
      'tax',
      set.taxes.map((tax) => explainWholeTax(tax, set, terms)),
    ),
  ]);
}
