import type { Breakdown } from './breakdown.js';
import type { Figures } from './choice-price.js';
import type { CreditedLine } from './credited-line.js';
import { sumOf } from './explain.js';

const AS_CHARGED = 'what the line was charged, less what came back before';
const FOR_CORES = 'deposit on the old parts that are returned';

function inputsOf({ figures, isWhole }: CreditedLine): Breakdown[] {
  const rule = isWhole ? AS_CHARGED : FOR_CORES;
  const one = (figure: string, amount: Figures['totalCents']): Breakdown[] =>
    amount === 0 ? [] : [{ figure, cents: amount, rule, inputs: [] }];
  return [
    ...one('labour', figures.labourCents),
    ...one('parts', figures.partsCents),
    ...one('core deposits', figures.coreCents),
    ...one('supplies', figures.suppliesCents),
    ...figures.taxes.map((tax): Breakdown => ({
      figure: 'tax',
      of: tax.name,
      cents: tax.cents,
      rule: isWhole
        ? AS_CHARGED
        : 'the part of the tax charged that fell on them, rounded half up over all that has come back',
      inputs: [],
    })),
  ];
}

/** How a credit came about: what comes back with each line. */
export function explainCredit(lines: readonly CreditedLine[]): Breakdown {
  return sumOf(
    'credit',
    lines.map((line) => sumOf(line.isWhole ? 'line given back' : 'cores returned', inputsOf(line), line.id)),
  );
}
