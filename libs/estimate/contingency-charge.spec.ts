import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { NOTHING_AGREED } from './already-agreed.js';
import type { Breakdown } from './breakdown.js';
import { contingencyCharge } from './contingency-charge.js';
import type { ContingencyCharge, ContingencyToCharge } from './contingency-charge.js';
import { ITEM_KINDS } from './estimate-line.js';
import { priceChoice } from './price-choice.js';
import type { PricingPolicy, TaxKind } from './pricing-policy.js';

const POLICY: PricingPolicy = {
  taxes: [{ name: 'Sales tax', ratePpm: ppm(72_500), on: ['part', 'fluid', 'supplies'] }],
  taxRounding: 'invoice',
  supplies: { ratePpm: ppm(60_000), floorCents: cents(0), capCents: cents(3500) },
};

const pipe = (unit: number, quantity = 100): ContingencyToCharge['items'][number] => ({
  id: 'pipe',
  kind: 'part',
  quantityHundredths: quantity,
  unitPriceCents: cents(unit),
});

const seized = (over: Partial<ContingencyToCharge> = {}): ContingencyToCharge => ({
  id: 'nut seizes',
  line: { rateId: 'general', rateCentsPerHour: cents(12_950) },
  hundredths: bookHundredths(80),
  items: [pipe(1240, 200)],
  capCents: cents(20_000),
  given: NOTHING_AGREED,
  policy: POLICY,
  ...over,
});

function charged(input: ContingencyToCharge): ContingencyCharge {
  const result = contingencyCharge(input);
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
}

describe('a contingency that has happened', () => {
  it('costs its own hours, parts, supplies and tax', () => {
    // By hand: 0.80 h × 129.50 = 103.60; 2 × 12.40 = 24.80; supplies 6 % = 6.22; tax 7.25 % of 31.02 = 2.25.
    const { figures, uncappedCents, breakdown } = charged(seized());
    expect(figures).toMatchObject({
      hundredths: 80,
      labourCents: 10_360,
      partsCents: 2480,
      suppliesCents: 622,
      taxCents: 225,
      totalCents: 13_687,
    });
    expect(uncappedCents).toBe(13_687);
    expect(breakdown).toMatchObject({ figure: 'total', cents: 13_687 });
  });

  it('costs the cap at most: the labour gives way first, and the breakdown says by how much', () => {
    // 136.87 against 120.00: 16.87 of labour, on which there is no tax, comes off.
    const { figures, uncappedCents, breakdown } = charged(seized({ capCents: cents(12_000) }));
    expect(figures).toMatchObject({
      hundredths: 80,
      labourCents: 8673,
      partsCents: 2480,
      suppliesCents: 622,
      taxCents: 225,
      totalCents: 12_000,
    });
    expect(uncappedCents).toBe(13_687);
    expect(breakdown.rule).toContain('136.87 without the cap of 120.00, tax included');
    expect(breakdown.inputs[0]).toMatchObject({
      figure: 'labour',
      cents: 8673,
      rule: '103.60 less 16.87 over the cap of 120.00, tax included',
    });
  });

  it('is taxed on what is left of it', () => {
    // No labour, no supplies; of the pipe as much as makes 20.00 with tax: 18.65 + 7.25 % = 18.65 + 1.35. A seller's own
    // reduction lowers the taxed price (Streamlined Sales and Use Tax Agreement, definition of sales price; from memory).
    const { figures } = charged(seized({ capCents: cents(2000) }));
    expect(figures).toMatchObject({
      labourCents: 0,
      partsCents: 1865,
      suppliesCents: 0,
      taxCents: 135,
      totalCents: 2000,
    });
  });

  it('costs nothing where the cap is nothing, and keeps its hours for the review', () => {
    const { figures } = charged(seized({ capCents: cents(0) }));
    expect(figures).toMatchObject({ hundredths: 80, totalCents: 0, taxCents: 0 });
  });

  it('adds only what is left of the supplies once the repair order has nearly reached their cap', () => {
    const given = { ...NOTHING_AGREED, labourCents: cents(55_000), suppliesCents: cents(3300) };
    expect(charged(seized({ given })).figures.suppliesCents).toBe(200);
  });

  it('has no labour to pay where that of its line is not charged', () => {
    const { line } = seized();
    const { figures } = charged(seized({ line: { ...line, noCharge: 'warranty' } }));
    expect(figures).toMatchObject({ hundredths: 80, labourCents: 0, partsCents: 2480 });
  });

  it('is refused with figures that nobody can mean, and says which', () => {
    expect(contingencyCharge(seized({ capCents: -1 as never }))).toMatchObject({
      ok: false,
      fault: { code: 'figure-invalid', fields: [{ pointer: '/capCents' }] },
    });
    expect(contingencyCharge(seized({ items: [pipe(-5)] }))).toMatchObject({
      ok: false,
      fault: { code: 'figure-invalid' },
    });
  });
});

const KINDS: readonly TaxKind[] = ['labour', ...ITEM_KINDS, 'supplies'];
const anyTax = fc.record({ ratePpm: fc.nat(300_000).map(ppm), on: fc.subarray([...KINDS]) });
const anyPolicy: fc.Arbitrary<PricingPolicy> = fc.record({
  taxes: fc
    .array(anyTax, { maxLength: 3 })
    .map((taxes) => taxes.map((tax, at) => ({ name: `tax ${at}`, ...tax }))),
  taxRounding: fc.constantFrom('line', 'invoice'),
  taxesCombined: fc.boolean(),
  supplies: fc.option(
    fc.record({
      ratePpm: fc.nat(200_000).map(ppm),
      floorCents: fc.constantFrom(0, 500, 2000).map(cents),
      capCents: fc.option(fc.constantFrom(3500, 9000).map(cents), { nil: null }),
    }),
    { nil: null },
  ),
});
const anyContingency: fc.Arbitrary<ContingencyToCharge> = fc.record({
  id: fc.constant('extra'),
  line: fc.record({
    rateId: fc.constant('rate'),
    rateCentsPerHour: fc.nat(30_000).map(cents),
    noCharge: fc.constantFrom(null, null, null, 'goodwill' as const),
  }),
  hundredths: fc.nat(1500).map(bookHundredths),
  items: fc.array(
    fc.record({
      id: fc.uuid(),
      kind: fc.constantFrom(...ITEM_KINDS),
      quantityHundredths: fc.nat(600),
      unitPriceCents: fc.nat(40_000).map(cents),
      coreCents: fc.nat(5000).map(cents),
    }),
    { maxLength: 4 },
  ),
  capCents: fc.oneof(fc.nat(200), fc.nat(300_000)).map(cents),
  given: fc.record({
    steps: fc.constant([]),
    labourCents: fc.nat(90_000).map(cents),
    suppliesCents: fc.nat(5000).map(cents),
    partsCents: fc.nat(90_000).map(cents),
  }),
  policy: anyPolicy,
});

function sumsAreExact(tree: Breakdown): boolean {
  const money = tree.inputs.flatMap((input) => ('cents' in input ? [input.cents] : []));
  const own = tree.rule.startsWith('sum of the figures below');
  const fits = !own || !('cents' in tree) || money.reduce((sum, one) => sum + one, 0) === tree.cents;
  return fits && tree.inputs.every(sumsAreExact);
}

describe('whatever happens and however long it takes', () => {
  const RUNS = { numRuns: 1000 };

  it('no more is charged than the cap, in figures that add up to the cent and are never below nothing', () => {
    fc.assert(
      fc.property(anyContingency, (input) => {
        const { figures, uncappedCents, breakdown } = charged(input);
        const { labourCents, partsCents, coreCents, suppliesCents, taxCents, totalCents } = figures;
        expect(totalCents).toBeLessThanOrEqual(input.capCents);
        expect(totalCents).toBeLessThanOrEqual(uncappedCents);
        expect(labourCents + partsCents + coreCents + suppliesCents + taxCents).toBe(totalCents);
        expect(figures.taxes.reduce((sum, tax) => sum + tax.cents, 0)).toBe(taxCents);
        expect(Math.min(labourCents, partsCents, coreCents, suppliesCents, taxCents)).toBeGreaterThanOrEqual(
          0,
        );
        expect(breakdown).toMatchObject({ cents: totalCents });
        expect(sumsAreExact(breakdown)).toBe(true);
        expect(figures.hundredths).toBe(input.hundredths);
      }),
      RUNS,
    );
  });

  it('no more is let off than must be: one cent more before tax would be over the cap', () => {
    fc.assert(
      fc.property(anyContingency, (input) => {
        const { figures, uncappedCents } = charged(input);
        if (uncappedCents <= input.capCents) return;
        // A cent before tax moves each tax by a cent at most, so a further cent would pass the cap.
        expect(figures.totalCents + 1 + input.policy.taxes.length).toBeGreaterThan(input.capCents);
        const untaxed = { ...input, policy: { ...input.policy, taxes: [] } };
        const plain = charged(untaxed);
        if (plain.uncappedCents > input.capCents) expect(plain.figures.totalCents).toBe(input.capCents);
      }),
      RUNS,
    );
  });

  it('within the cap it is the price of a line of its own', () => {
    fc.assert(
      fc.property(anyContingency, ({ capCents, ...input }) => {
        const { figures, uncappedCents } = charged({ ...input, capCents: cents(capCents + 1_000_000_000) });
        const line = {
          id: 'line',
          ...input.line,
          items: input.items,
          steps: [{ step: 'extra', position: 'vehicle', hundredths: input.hundredths }],
        };
        const priced = priceChoice({
          lines: [line],
          chosen: ['line'],
          given: input.given,
          policy: input.policy,
        });
        if (!priced.ok) throw new Error(priced.fault.detail);
        expect(figures.totalCents).toBe(priced.value.totals.totalCents);
        expect(uncappedCents).toBe(figures.totalCents);
      }),
      RUNS,
    );
  });
});
