import { cents } from '#libs/kernel';
import { formatCents } from '#libs/money';
import type { Breakdown } from './breakdown.js';
import { explainCores, explainItems } from './explain-items.js';
import { explainLineLabour } from './explain-labour.js';
import { combinedTaxText, explainTax, sumOf, taxText } from './explain.js';
import type { PreparedEstimate } from './prepare-estimate.js';
import type { PricedLine, PricedSet } from './price-set.js';

/** How the figures of one chosen line came about. */
export function explainLine(set: PricedSet, priced: PricedLine, prepared: PreparedEstimate): Breakdown {
  const { policy } = prepared.terms;
  const at = set.lines.indexOf(priced);
  const taxes = set.taxes.map((tax) => {
    const base = tax.bases[at] ?? cents(0);
    const share = tax.perLine[at] ?? cents(0);
    const byLine =
      policy.taxesCombined === true
        ? combinedTaxText(tax, base, priced.figures.taxCents)
        : taxText(tax, base);
    const spread = `this line's share of ${formatCents(tax.cents)}, rounded once for the choice, by what is taxed`;
    return explainTax(tax, share, base, policy.taxRounding === 'line' ? byLine : spread);
  });
  return sumOf(
    'total',
    [
      explainLineLabour(set, priced, prepared),
      explainItems([priced], prepared.terms),
      explainCores([priced]),
      {
        figure: 'supplies',
        cents: priced.figures.suppliesCents,
        rule: `this line's share of ${formatCents(set.totals.suppliesCents)} for the choice, by what supplies are a share of`,
        inputs: [],
      },
      sumOf('tax', taxes),
    ],
    priced.prepared.line.id,
  );
}
