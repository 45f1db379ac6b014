import { bookHundredths, cents, ppm } from '#libs/kernel';
import { NOTHING_AGREED } from './already-agreed.js';
import type { ChoiceInput } from './check-choice.js';
import type { ChosenLinePrice } from './choice-price.js';
import type { EstimateItem, EstimateLine } from './estimate-line.js';
import { priceChoice } from './price-choice.js';
import type { PricingPolicy } from './pricing-policy.js';
import { taxesOfChoice } from './taxes-of-choice.js';

const FREE: PricingPolicy = { taxes: [], taxRounding: 'invoice', supplies: null };

const line = (id: string, steps: Record<string, number>, over: Partial<EstimateLine> = {}): EstimateLine => ({
  id,
  steps: Object.entries(steps).map(([step, hours]) => ({
    step,
    position: 'engine',
    hundredths: bookHundredths(hours),
  })),
  rateId: 'mechanical',
  rateCentsPerHour: cents(10_000),
  items: [],
  ...over,
});
const item = (id: string, kind: EstimateItem['kind'], price: number, core = 0): EstimateItem => ({
  id,
  kind,
  quantityHundredths: 100,
  unitPriceCents: cents(price),
  coreCents: cents(core),
});

const price = (input: Partial<ChoiceInput> & Pick<ChoiceInput, 'lines'>) => {
  const result = priceChoice({
    chosen: input.lines.map(({ id }) => id),
    given: NOTHING_AGREED,
    policy: FREE,
    ...input,
  });
  if (!result.ok) throw new Error(result.fault.detail);
  return {
    ...result.value,
    chosenLines: result.value.lines.filter((one): one is ChosenLinePrice => one.chosen),
  };
};
const labours = (lines: readonly ChosenLinePrice[]): number[][] =>
  lines.map((one) => [one.hundredths, one.labourCents, one.discountCents]);

// All by hand from the rules of the trade: common practice, no published source, unless one is named.
describe('labour at other terms', () => {
  it('under warranty keeps its hours and costs nothing', () => {
    const { totals } = price({ lines: [line('A', { work: 190 }, { noCharge: 'warranty' })] });
    expect(totals).toMatchObject({ hundredths: 190, labourCents: 0, discountCents: 19_000, totalCents: 0 });
  });

  it('without charge leaves a shared step to the line that pays, hours and money, whichever comes first', () => {
    const free = line('A', { 'cover off': 80, pump: 110 }, { noCharge: 'comeback' });
    const paid = line('B', { 'cover off': 80, belt: 100 });
    // Together 2.9 h, of which 1.8 h at 100.00 are paid: as much as B costs alone. A gives up its 1.1 h only.
    const { totals, chosenLines } = price({ lines: [free, paid] });
    expect(totals).toMatchObject({ hundredths: 290, labourCents: 18_000 });
    expect(labours(chosenLines)).toEqual([
      [110, 0, 11_000],
      [180, 18_000, 0],
    ]);
  });

  it('sells a step at its own rate where it has one', () => {
    const mixed: EstimateLine = {
      ...line('A', { work: 100 }),
      steps: [
        { step: 'work', position: 'engine', hundredths: bookHundredths(100) },
        {
          step: 'coding',
          position: 'vehicle',
          hundredths: bookHundredths(50),
          rateId: 'electrical',
          rateCentsPerHour: cents(18_000),
        },
      ],
    };
    // 1.0 h × 100.00 + 0.5 h × 180.00.
    expect(price({ lines: [mixed] }).totals).toMatchObject({ hundredths: 150, labourCents: 19_000 });
  });

  it('takes a percentage off the rate, and rounds once', () => {
    // 0.7 h at 94.95 less 10 % is 59.8185, half up 59.82; off the rounded 66.47 it would be 59.82 too, off 0.1 h at
    // 117.35 less 5 % 11.14825 → 11.15.
    const off = (labourPpm: number) => ({ labourPpm: ppm(labourPpm), reason: 'a regular' });
    const at = (hours: number, rate: number, labourPpm: number): number =>
      price({
        lines: [line('A', { work: hours }, { rateCentsPerHour: cents(rate), discount: off(labourPpm) })],
      }).totals.labourCents;
    expect([at(70, 9495, 100_000), at(10, 11_735, 50_000), at(10, 11_735, 1_000_000)]).toEqual([
      5982, 1115, 0,
    ]);
  });

  it('sells a shared step at the dearer of two lines, so that a discount holds for what no other line pays for', () => {
    const full = line('A', { 'dash out': 100, heater: 50 });
    const less = line(
      'B',
      { 'dash out': 100, blower: 100 },
      {
        discount: { labourPpm: ppm(100_000), reason: 'a regular' },
      },
    );
    // Dash 100.00: both pay 90.00 / 2, A the other 10.00. A 45 + 10 + 50, B 45 + 90.
    const { totals, chosenLines } = price({ lines: [full, less] });
    expect(totals.labourCents).toBe(24_000);
    expect(labours(chosenLines)).toEqual([
      [100, 10_500, 0],
      [150, 13_500, 1_500],
    ]);
  });
});

describe('items at other prices', () => {
  const items = [
    item('pads', 'part', 10_000, 2000),
    item('fluid', 'fluid', 5000),
    item('disposal', 'fee', 400),
  ];
  const taxed: PricingPolicy = {
    ...FREE,
    taxes: [{ name: 'sales tax', ratePpm: ppm(100_000), on: ['part'] }],
  };

  it('take the percentage first, then the amount, off parts and fluids; fees and cores are passed on', () => {
    const discount = { itemsPpm: ppm(100_000), itemsCents: cents(1500), reason: 'a regular' };
    // 150.00 less 15.00 and 15.00 is 120.00, by 2 : 1; tax on 80.00 + 20.00 of core.
    const { totals } = price({ lines: [line('A', {}, { items, discount })], policy: taxed });
    expect(totals).toMatchObject({
      partsCents: 12_400,
      coreCents: 2000,
      discountCents: 3000,
      taxCents: 1000,
      totalCents: 15_400,
    });
  });

  it('never come below nothing', () => {
    const discount = { itemsCents: cents(99_999), reason: 'a regular' };
    const { totals } = price({ lines: [line('A', {}, { items, discount })], policy: taxed });
    expect(totals).toMatchObject({ partsCents: 400, coreCents: 2000, taxCents: 200, totalCents: 2600 });
  });
});

describe('a discount of the order', () => {
  const work = line('A', { work: 200 });
  const parts = line('B', {}, { items: [item('p', 'part', 10_000, 3000), item('f', 'fee', 500)] });

  it('by percentage lowers every rate, and every line’s items', () => {
    const orderDiscount = { labourPpm: ppm(50_000), itemsPpm: ppm(100_000), reason: 'spring' };
    expect(price({ lines: [work, parts], orderDiscount }).totals).toMatchObject({
      labourCents: 19_000,
      partsCents: 9500,
      discountCents: 2000,
      totalCents: 31_500,
    });
  });

  it('by amount is spread by what labour and items cost, and lowers what is taxed', () => {
    const policy: PricingPolicy = {
      ...FREE,
      taxes: [{ name: 'sales tax', ratePpm: ppm(100_000), on: ['part'] }],
    };
    // 30.00 over 200.00 and 100.00: 20.00 and 10.00. Tax on 90.00 + 30.00 of core.
    const { totals, chosenLines } = price({
      lines: [work, parts],
      policy,
      orderDiscount: { cents: cents(3000) },
    });
    expect(totals).toMatchObject({ labourCents: 18_000, partsCents: 9500, coreCents: 3000, taxCents: 1200 });
    expect(chosenLines.map((one) => one.orderDiscountCents)).toEqual([2000, 1000]);
  });

  it('splits the odd cent by largest remainder', () => {
    // 10.00 over 129.50 : 66.47 : 18.99 is 6.0242, 3.0921 and 0.8834: 603, 309 and 88 cents by Hamilton's method for these three
    // weights (recomputed; the method: Hamilton, 1790 census example at electowiki.org).
    const lines = [12_950, 6647, 1899].map((amount, at) =>
      line(`L${at}`, {}, { items: [item('p', 'part', amount)] }),
    );
    const { chosenLines } = price({ lines, orderDiscount: { cents: cents(1000) } });
    expect(chosenLines.map((one) => one.orderDiscountCents)).toEqual([603, 309, 88]);
  });

  it('is given once for the order: what was given before is not given again', () => {
    const orderDiscount = { cents: cents(3000) };
    const given = { ...NOTHING_AGREED, orderDiscountCents: cents(2000) };
    expect(price({ lines: [parts], orderDiscount, given }).totals.partsCents).toBe(9500);
    expect(price({ lines: [parts], orderDiscount: { cents: cents(999_999) } }).totals).toMatchObject({
      partsCents: 500,
      coreCents: 3000,
    });
  });
});

describe('shop supplies on another base', () => {
  const supplies = { ratePpm: ppm(60_000), floorCents: cents(0), capCents: cents(3500) };
  const lines = [
    line('A', { work: 100 }, { items: [item('p', 'part', 20_000), item('s', 'sublet', 90_000)] }),
  ];
  it('are a share of parts and fluids, of labour, or of both', () => {
    const on = (base: 'labour' | 'parts' | 'labour-and-parts'): number =>
      price({ lines, policy: { ...FREE, supplies: { ...supplies, base } } }).totals.suppliesCents;
    // 6 % of 100.00, of 200.00 and of 300.00; sublet work is none of ours.
    expect([on('labour'), on('parts'), on('labour-and-parts')]).toEqual([600, 1200, 1800]);
  });

  it('count what was agreed before on the same base', () => {
    const given = {
      ...NOTHING_AGREED,
      labourCents: cents(10_000),
      suppliesCents: cents(3000),
      suppliesBaseCents: cents(50_000),
    };
    const policy: PricingPolicy = { ...FREE, supplies: { ...supplies, base: 'labour-and-parts' } };
    expect(price({ lines, policy, given }).totals.suppliesCents).toBe(500);
  });
});

describe('combined taxes', () => {
  // Streamlined Sales and Use Tax Agreement s. 324: "the rounding rule may be applied to the aggregated state and local
  // taxes"; tax is carried to the third decimal and rounded up when that is above four. The amounts are those of its
  // half-up vectors, the rate split in two: 6 % + 0.5 % of 10.05, 5 % of 12.30, 8.25 % of 199.99, 6.75 % of 8.70.
  const vectors = [
    { amount: 1005, rates: [60_000, 5000], together: 65, apart: 60 + 5 },
    { amount: 1230, rates: [40_000, 10_000], together: 62, apart: 49 + 12 },
    { amount: 19_999, rates: [62_500, 20_000], together: 1650, apart: 1250 + 400 },
    { amount: 870, rates: [60_000, 7500], together: 59, apart: 52 + 7 },
    { amount: 10, rates: [25_000, 25_000], together: 1, apart: 0 },
  ];
  it.each(vectors)(
    'on $amount at $rates are rounded once: $together, not $apart',
    ({ amount, rates, together, apart }) => {
      const taxes = rates.map((rate, at) => ({
        name: `tax ${at}`,
        ratePpm: ppm(rate),
        on: ['part' as const],
      }));
      const of = (taxesCombined: boolean, taxRounding: 'line' | 'invoice') =>
        price({
          lines: [line('A', {}, { items: [item('p', 'part', amount)] })],
          policy: { ...FREE, taxes, taxRounding, taxesCombined },
        }).totals;
      for (const rounding of ['line', 'invoice'] as const) {
        expect(of(true, rounding).taxCents).toBe(together);
        expect(of(false, rounding).taxCents).toBe(apart);
        expect(of(true, rounding).taxes.reduce((sum, tax) => sum + tax.cents, 0)).toBe(together);
      }
    },
  );

  it('are rounded on each line, or once for the choice', () => {
    // The three lines of 10.30 at 7.25 % of SSUTA s. 324(B): 2.25 by line, 2.24 by invoice.
    const lines = ['A', 'B', 'C'].map((id) => line(id, {}, { items: [item('p', 'part', 1030)] }));
    const taxes = [60_000, 12_500].map((rate, at) => ({
      name: `tax ${at}`,
      ratePpm: ppm(rate),
      on: ['part' as const],
    }));
    const of = (taxRounding: 'line' | 'invoice'): number =>
      price({ lines, policy: { ...FREE, taxes, taxRounding, taxesCombined: true } }).totals.taxCents;
    expect([of('line'), of('invoice')]).toEqual([225, 224]);
  });

  it('of a credit are those of the charge, negated', () => {
    // 5 % of 12.50 is 0.625: 0.63 charged, 0.63 returned, not 0.62.
    const policy = {
      taxes: [{ name: 'state', ratePpm: ppm(50_000), on: ['part' as const] }],
      taxRounding: 'line' as const,
    };
    const [credit] = taxesOfChoice(policy, () => [cents(-1250), cents(-10)]);
    expect(credit).toMatchObject({ perLine: [-63, -1], cents: -64 });
  });
});

describe('what cannot be meant', () => {
  it('is pointed at', () => {
    const faulty = priceChoice({
      lines: [line('A', {}, { discount: { labourPpm: ppm(1_000_001), itemsCents: cents(-1), reason: '' } })],
      chosen: [],
      given: NOTHING_AGREED,
      policy: FREE,
      orderDiscount: { cents: cents(-5) },
      packages: [{ name: 'P', lineIds: [], hundredths: bookHundredths(1) }],
    });
    expect(faulty).toMatchObject({
      ok: false,
      fault: {
        code: 'figure-invalid',
        fields: [
          { pointer: '/lines/0/discount/labourPpm' },
          { pointer: '/lines/0/discount/itemsCents' },
          { pointer: '/orderDiscount/cents' },
          { pointer: '/packages/0/lineIds' },
        ],
      },
    });
  });
});
