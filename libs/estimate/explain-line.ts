import { cents } from '#libs/kernel';
import { formatCents } from '#libs/money';
import type { Breakdown } from './breakdown.js';
import { explainCores, explainItems, explainMember, explainTax, sumOf, taxText } from './explain.js';
import type { PricedLine, PricedSet, PricingTerms } from './price-set.js';

/** How the figures of one chosen line came about. */
export function explainLine(set: PricedSet, priced: PricedLine, terms: PricingTerms): Breakdown {
  const at = set.lines.indexOf(priced);
  const labour = set.classes.flatMap((one) =>
    one.members.filter(({ id }) => id === priced.line.id).map((member) => explainMember(one, member)),
  );
  const taxes = set.taxes.map((tax) => {
    const base = tax.bases[at] ?? cents(0);
    const share = tax.perLine[at] ?? cents(0);
    const byLine = terms.policy.taxRounding === 'line';
    const spread = `this line's share of ${formatCents(tax.cents)}, rounded once for the choice, by what is taxed`;
    return explainTax(tax, share, base, byLine ? taxText(tax, base) : spread);
  });
  return sumOf(
    'total',
    [
      sumOf('labour', labour),
      explainItems([priced]),
      explainCores([priced]),
      {
        figure: 'supplies',
        cents: priced.figures.suppliesCents,
        rule: `this line's share of ${formatCents(set.totals.suppliesCents)} for the choice, by labour`,
        inputs: [],
      },
      sumOf('tax', taxes),
    ],
    priced.line.id,
  );
}
