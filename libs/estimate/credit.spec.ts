import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { NOTHING_AGREED } from './already-agreed.js';
import { SUM } from './breakdown.js';
import type { Breakdown } from './breakdown.js';
import type { ChoiceInput } from './check-choice.js';
import type { Figures } from './choice-price.js';
import { creditFor } from './credit.js';
import type { Credit } from './credit.js';
import type { EstimateLine } from './estimate-line.js';
import { figuresLess, NO_FIGURES } from './figures-less.js';
import { backTogether, NOTHING_BACK } from './given-back.js';
import type { GivenBack } from './given-back.js';
import { priceChoice } from './price-choice.js';
import type { PricingPolicy } from './pricing-policy.js';

const POLICY: PricingPolicy = {
  taxes: [
    { name: 'state tax', ratePpm: ppm(50_000), on: ['labour', 'part', 'fluid', 'sublet', 'fee', 'supplies'] },
  ],
  taxRounding: 'invoice',
  supplies: null,
};
const part = (id: string, price: number, core = 0) => ({
  id,
  kind: 'part' as const,
  quantityHundredths: 100,
  unitPriceCents: cents(price),
  coreCents: cents(core),
});
const line = (id: string, items: EstimateLine['items'], hundredths = 0): EstimateLine => ({
  id,
  steps: [{ step: 'open up', position: 'front', hundredths: bookHundredths(hundredths) }],
  rateId: 'any',
  rateCentsPerHour: cents(9000),
  items,
});
const charged = (lines: EstimateLine[], policy: PricingPolicy = POLICY): ChoiceInput => ({
  lines,
  chosen: lines.map(({ id }) => id),
  given: NOTHING_AGREED,
  policy,
});
const credit = (input: ChoiceInput, back: Partial<GivenBack>, before?: GivenBack): Credit => {
  const result = creditFor(input, { ...NOTHING_BACK, ...back }, before);
  if (!result.ok) throw new Error(JSON.stringify(result.fault));
  return result.value;
};
const total = (input: ChoiceInput): Figures => {
  const price = priceChoice(input);
  if (!price.ok) throw new Error(price.fault.detail);
  const { breakdown, ...figures } = price.value.totals;
  expect(breakdown.figure).toBe('total');
  return figures;
};
const amountOf = (node: Breakdown): number => ('cents' in node ? node.cents : 0);
const wrongSums = (node: Breakdown): Breakdown[] => [
  ...(node.rule === SUM && node.inputs.reduce((sum, input) => sum + amountOf(input), 0) !== amountOf(node)
    ? [node]
    : []),
  ...node.inputs.flatMap(wrongSums),
];

describe('what comes back', () => {
  it('a full refund returns exactly the tax that was charged', () => {
    // A sale of 12.50 taxed at 5 percent: 0.625, charged as 0.63. Rounding toward minus infinity would return 0.62.
    for (const taxRounding of ['invoice', 'line'] as const) {
      const sale = charged([line('pads', [part('pad set', 1250)])], { ...POLICY, taxRounding });
      expect(total(sale)).toMatchObject({ taxCents: 63, totalCents: 1313 });
      expect(credit(sale, { lineIds: ['pads'] }).totals).toMatchObject({
        partsCents: -1250,
        taxCents: -63,
        totalCents: -1313,
      });
    }
  });

  it('a returned core comes back with its tax, where local law taxes it', () => {
    // A part of 189.99 with a core deposit of 45.00: the owner pays 234.99, or 189.99 once the old part is back.
    const pump = (policy: PricingPolicy): ChoiceInput =>
      charged([line('pump', [part('pump', 18_999, 4500)])], policy);
    const untaxed = pump({ ...POLICY, taxes: [] });
    expect(total(untaxed).totalCents).toBe(23_499);
    const back = { cores: [{ lineId: 'pump', itemId: 'pump', quantityHundredths: 100 }] };
    expect(credit(untaxed, back).totals).toMatchObject({ coreCents: -4500, totalCents: -4500 });
    // 5 percent of 45.00.
    expect(credit(pump(POLICY), back)).toMatchObject({
      lines: [{ id: 'pump', isWhole: false }],
      totals: { partsCents: 0, coreCents: -4500, taxCents: -225, totalCents: -4725 },
      breakdown: {
        figure: 'credit',
        cents: -4725,
        inputs: [
          {
            figure: 'cores returned',
            of: 'pump',
            inputs: [{ figure: 'core deposits' }, { figure: 'tax', of: 'state tax', cents: -225 }],
          },
        ],
      },
    });
  });

  it('a line comes back with what it carried of a shared step', () => {
    const both = charged([line('pump', [], 100), line('belt', [], 100)]);
    expect(credit(both, { lineIds: ['belt'] }).totals).toMatchObject({
      hundredths: -50,
      labourCents: -4500,
      taxCents: -225,
    });
  });

  it.each<[string, Partial<GivenBack>, string]>([
    ['a line that was not charged', { lineIds: ['hood'] }, '/lineIds/0'],
    ['a line twice', { lineIds: ['pump', 'pump'] }, '/lineIds/0'],
    ['a line that came back before', { lineIds: ['belt'] }, '/lineIds/0'],
    [
      'a core without a deposit',
      { cores: [{ lineId: 'pump', itemId: 'seal', quantityHundredths: 100 }] },
      '/cores/0/itemId',
    ],
    [
      'a core beside its whole line',
      { lineIds: ['pump'], cores: [{ lineId: 'pump', itemId: 'pump', quantityHundredths: 100 }] },
      '/cores/0/lineId',
    ],
    [
      'more cores than were sold',
      { cores: [{ lineId: 'pump', itemId: 'pump', quantityHundredths: 101 }] },
      '/cores/0/quantityHundredths',
    ],
    [
      'a part of nothing',
      { cores: [{ lineId: 'pump', itemId: 'pump', quantityHundredths: 0 }] },
      '/cores/0/quantityHundredths',
    ],
  ])('%s is refused', (_, back, pointer) => {
    const sale = charged([line('pump', [part('pump', 18_999, 4500), part('seal', 500)]), line('belt', [])]);
    const before = { lineIds: ['belt'], cores: [] };
    expect(creditFor(sale, { ...NOTHING_BACK, ...back }, before)).toMatchObject({
      ok: false,
      fault: {
        code: 'back-impossible',
        fields: expect.arrayContaining([expect.objectContaining({ pointer })]) as unknown,
      },
    });
  });
});

const anItem = (id: string) =>
  fc.record({
    id: fc.constant(id),
    kind: fc.constantFrom('part' as const, 'fluid' as const, 'sublet' as const, 'fee' as const),
    quantityHundredths: fc.integer({ min: 1, max: 400 }),
    unitPriceCents: fc.nat(30_000).map(cents),
    coreCents: fc.nat(6000).map(cents),
  });
const aSale: fc.Arbitrary<ChoiceInput> = fc
  .record({
    lines: fc
      .array(
        fc.record({
          hundredths: fc.constant(bookHundredths(70)),
          shares: fc.boolean(),
          rate: fc.constantFrom(8000, 9995),
          items: fc.tuple(anItem('first'), anItem('second')),
          noCharge: fc.constantFrom(null, null, 'warranty' as const),
          itemsPpm: fc.constantFrom(0, 0, 125_000),
        }),
        { minLength: 1, maxLength: 4 },
      )
      .map((lines) =>
        lines.map(({ hundredths, shares, rate, items, noCharge, itemsPpm }, at): EstimateLine => ({
          id: `line ${at}`,
          steps: [{ step: shares ? 'shared' : `own ${at}`, position: 'front', hundredths }],
          rateId: 'any',
          rateCentsPerHour: cents(rate),
          items,
          noCharge,
          discount: itemsPpm === 0 ? null : { itemsPpm: ppm(itemsPpm), reason: 'fleet' },
        })),
      ),
    taxes: fc.array(
      fc.tuple(fc.nat(200_000), fc.subarray(['labour', 'part', 'fluid', 'sublet', 'supplies'] as const)),
      { maxLength: 3 },
    ),
    taxRounding: fc.constantFrom('line' as const, 'invoice' as const),
    taxesCombined: fc.boolean(),
    off: fc.constantFrom(0, 0, 1999),
  })
  .map(({ lines, taxes, taxRounding, taxesCombined, off }) => ({
    ...charged(lines, {
      taxes: taxes.map(([rate, on], at) => ({ name: `tax ${at}`, ratePpm: ppm(rate), on })),
      taxRounding,
      taxesCombined,
      supplies: { ratePpm: ppm(60_000), floorCents: cents(0), capCents: cents(3500) },
    }),
    ...(off === 0 ? {} : { orderDiscount: { cents: cents(off), reason: 'fleet' } }),
  }));

/** Some returns one after the other: cores in parts, then every line. */
const returnsOf = (sale: ChoiceInput): fc.Arbitrary<GivenBack[]> =>
  fc
    .array(
      fc.record({
        at: fc.nat(sale.lines.length - 1),
        item: fc.constantFrom('first', 'second'),
        part: fc.nat(400),
      }),
      { maxLength: 6 },
    )
    .map((tries) => {
      const steps: GivenBack[] = [];
      let before = NOTHING_BACK;
      const wanted: GivenBack[] = [
        ...tries.map(({ at, item, part: quantity }) => ({
          lineIds: [],
          cores: [{ lineId: `line ${at}`, itemId: item, quantityHundredths: quantity }],
        })),
        ...sale.lines.map(({ id }) => ({ lineIds: [id], cores: [] })),
      ];
      for (const back of wanted) {
        if (!creditFor(sale, back, before).ok) continue;
        steps.push(back);
        before = backTogether(before, back);
      }
      return steps;
    });

describe('credits, whatever the taxes and their rounding', () => {
  it('giving back everything, in any parts and order, returns exactly what was charged, tax by tax', () => {
    fc.assert(
      fc.property(
        aSale.chain((sale) => fc.tuple(fc.constant(sale), returnsOf(sale))),
        ([sale, returns]) => {
          let left = total(sale);
          let before = NOTHING_BACK;
          for (const back of returns) {
            const { totals, lines, breakdown } = credit(sale, back, before);
            const figures = Object.values({ ...totals, taxes: null }).concat(
              totals.taxes.map((tax) => tax.cents),
            );
            expect(figures.filter((figure) => typeof figure === 'number' && figure > 0)).toEqual([]);
            expect([amountOf(breakdown), wrongSums(breakdown)]).toEqual([totals.totalCents, []]);
            expect(lines.reduce((sum, one) => sum + one.figures.totalCents, 0)).toBe(totals.totalCents);
            left = figuresLess(left, figuresLess(NO_FIGURES, totals));
            before = backTogether(before, back);
          }
          expect(figuresLess(left, NO_FIGURES)).toEqual({
            ...NO_FIGURES,
            taxes: left.taxes.map(({ name }) => ({ name, cents: 0 })),
          });
        },
      ),
      { numRuns: 250 },
    );
  });
});
