import type { Figures, Prices } from '../../apps/web/src/api/estimate-types.js';
import type { MockLine } from './mock-lines.js';

/** Enough arithmetic for the pages: hours of their own and hours that lines share, parts, 3 % supplies, 20 % tax. */
const RATE = 9600;
const half = (n: number): number => Math.floor(n + 0.5);

function figures(hundredths: number, partsCents: number, free: boolean): Figures {
  const labourCents = free ? 0 : half((hundredths * RATE) / 100);
  const suppliesCents = half(labourCents * 0.03);
  const taxCents = half((labourCents + partsCents + suppliesCents) * 0.2);
  return {
    hundredths,
    labourCents,
    partsCents,
    coreCents: 0,
    suppliesCents,
    taxCents,
    taxes: [{ name: 'VAT 20 %', cents: taxCents }],
    discountCents: 0,
    totalCents: labourCents + partsCents + suppliesCents + taxCents,
  };
}

const partsOf = (line: MockLine): number =>
  half(
    line.items.reduce((sum, one) => sum + (one.unitPriceCents * one.quantityHundredths) / 100, 0) *
      (1 - (line.discount?.itemsPpm ?? 0) / 1_000_000),
  );
const free = (line: MockLine): boolean => line.noCharge != null;

const add = (all: readonly Figures[]): Figures => {
  const sum = (key: keyof Omit<Figures, 'taxes'>): number => all.reduce((n, one) => n + one[key], 0);
  const taxCents = sum('taxCents');
  return {
    hundredths: sum('hundredths'),
    labourCents: sum('labourCents'),
    partsCents: sum('partsCents'),
    coreCents: 0,
    suppliesCents: sum('suppliesCents'),
    taxCents,
    taxes: [{ name: 'VAT 20 %', cents: taxCents }],
    discountCents: 0,
    totalCents: sum('totalCents'),
  };
};

export function priced(lines: readonly MockLine[], chosen: readonly string[]): Omit<Prices, 'revisionId'> {
  const alone = (line: MockLine): Figures => figures(line.own + line.shared, partsOf(line), free(line));
  const inSet = lines.filter((line) => chosen.includes(line.id));
  const sharers = inSet.filter((line) => line.shared > 0).length;
  const carried = (line: MockLine): Figures =>
    figures(line.own + (line.shared > 0 ? line.shared / sharers : 0), partsOf(line), free(line));
  const totals = add(inSet.map(carried));
  const apart = inSet.reduce((sum, line) => sum + alone(line).totalCents, 0);
  return {
    shownSha256: null,
    chosen: [...chosen],
    lines: lines.map((line) => {
      const isIn = chosen.includes(line.id);
      const own = isIn ? carried(line) : alone(line);
      return {
        lineId: line.id,
        chosen: isIn,
        workBegun: false,
        alone: alone(line),
        figures: isIn ? own : null,
        ifAddedCents: isIn
          ? null
          : figures(line.own + (sharers > 0 ? 0 : line.shared), partsOf(line), free(line)).totalCents,
        breakdown: explain(line.title, own),
      };
    }),
    totals,
    savedCents: apart - totals.totalCents,
    breakdown: explain('what is chosen', totals),
  };
}

const explain = (of: string, shown: Figures): Prices['breakdown'] => ({
  figure: 'total',
  of,
  cents: shown.totalCents,
  rule: 'sum of the figures below',
  inputs: [
    {
      figure: 'labour',
      cents: shown.labourCents,
      rule: 'hours × rate, half up to the cent',
      inputs: [
        {
          figure: 'hours',
          hundredths: shown.hundredths,
          rule: 'each distinct step once; shared ones by equal parts',
          inputs: [],
        },
        { figure: 'rate', of: 'General', cents: RATE, rule: 'as the shop set it', inputs: [] },
      ],
    },
    { figure: 'parts', cents: shown.partsCents, rule: 'quantity × price of each', inputs: [] },
    { figure: 'supplies', cents: shown.suppliesCents, rule: '3 % of labour', inputs: [] },
    { figure: 'tax', of: 'VAT 20 %', cents: shown.taxCents, rule: '20 % of the figures above', inputs: [] },
  ],
});
