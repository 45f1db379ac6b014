import { cents } from '#libs/kernel';
import { SUM } from './breakdown.js';
import type { Breakdown } from './breakdown.js';
import { explainCores, explainItems } from './explain-items.js';
import { explainLabour } from './explain-labour.js';
import { combinedTaxText, explainSupplies, explainTax, sumOf, taxText } from './explain.js';
import type { PreparedEstimate } from './prepare-estimate.js';
import type { PricedSet } from './price-set.js';
import type { PricingPolicy } from './pricing-policy.js';
import type { TaxOfChoice } from './taxes-of-choice.js';

function explainWholeTax(
  tax: TaxOfChoice,
  set: PricedSet,
  { taxRounding, taxesCombined }: PricingPolicy,
): Breakdown {
  if (taxRounding === 'invoice') {
    const base = cents(tax.bases.reduce((sum, one) => sum + one, 0));
    const rule =
      taxesCombined === true ? combinedTaxText(tax, base, set.totals.taxCents) : taxText(tax, base);
    return explainTax(tax, tax.cents, base, `${rule} once for the choice`);
  }
  const inputs = set.lines.map(({ prepared, figures }, at) => {
    const base = tax.bases[at] ?? cents(0);
    return {
      figure: 'tax',
      of: prepared.line.id,
      cents: tax.perLine[at] ?? cents(0),
      rule: taxesCombined === true ? combinedTaxText(tax, base, figures.taxCents) : taxText(tax, base),
      inputs: [],
    };
  });
  return { figure: 'tax', of: tax.rule.name, cents: tax.cents, rule: SUM, inputs };
}

/** How the figures of the whole choice came about. */
export function explainTotal(set: PricedSet, prepared: PreparedEstimate): Breakdown {
  const { terms } = prepared;
  return sumOf('total', [
    explainLabour(set, prepared),
    explainItems(set.lines, terms),
    explainCores(set.lines),
    explainSupplies(set, terms),
    sumOf(
      'tax',
      set.taxes.map((tax) => explainWholeTax(tax, set, terms.policy)),
    ),
  ]);
}
