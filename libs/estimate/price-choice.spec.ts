import { bookHundredths, cents, ppm } from '#libs/kernel';
import type { LabourStep } from '#libs/labour';
import { addToAgreed } from './add-to-agreed.js';
import { NOTHING_AGREED } from './already-agreed.js';
import type { AlreadyAgreed } from './already-agreed.js';
import type { ChosenLinePrice, OpenLinePrice } from './choice-price.js';
import type { ChoiceInput } from './check-choice.js';
import type { EstimateItem, EstimateLine } from './estimate-line.js';
import { priceChoice } from './price-choice.js';
import type { PricingPolicy } from './pricing-policy.js';

const RATE = 12950;
const FREE: PricingPolicy = { taxes: [], taxRounding: 'invoice', supplies: null };

const line = (id: string, steps: Record<string, number>, over: Partial<EstimateLine> = {}): EstimateLine => ({
  id,
  steps: Object.entries(steps).map(([step, hours]): LabourStep => ({
    step,
    position: 'engine',
    hundredths: bookHundredths(hours),
  })),
  rateId: 'mechanical',
  rateCentsPerHour: cents(RATE),
  items: [],
  ...over,
});

const item = (
  id: string,
  kind: EstimateItem['kind'],
  quantity: number,
  price: number,
  core = 0,
): EstimateItem => ({
  id,
  kind,
  quantityHundredths: quantity,
  unitPriceCents: cents(price),
  coreCents: cents(core),
});

const price = (
  lines: EstimateLine[],
  chosen: string[],
  policy = FREE,
  given: AlreadyAgreed = NOTHING_AGREED,
) => {
  const result = priceChoice({ lines, chosen, given, policy });
  if (!result.ok) throw new Error(result.fault.detail);
  const chosenLines = result.value.lines.filter((one): one is ChosenLinePrice => one.chosen);
  const openLines = result.value.lines.filter((one): one is OpenLinePrice => !one.chosen);
  return { ...result.value, chosenLines, openLines };
};

// Three jobs behind one cover, in tenths of an hour (worked by hand from the definition: shared dismantling is paid
// once): A 1.9 h, B 1.8 h, C 1.2 h; the belt and the cover, 0.8 h, are shared.
const A = line('A', { drain: 20, 'belt off': 30, 'cover off': 50, pump: 60, refill: 30 });
const B = line('B', { 'belt off': 30, 'cover off': 50, 'timing belt': 100 });
const C = line('C', { 'belt off': 30, 'cover off': 50, tensioner: 40 });

describe('the labour of lines that share dismantling', () => {
  it('takes two lines off once: 2.9 h instead of 3.7 h', () => {
    // 2.9 h × 129.50 = 375.55. A carries 1.1 + 0.4 = 1.5 h, B 1.0 + 0.4 = 1.4 h: 194.25 and 181.30.
    const { totals, chosenLines, openLines } = price([A, B, C], ['A', 'B']);
    expect(totals).toMatchObject({ hundredths: 290, labourCents: 37555, totalCents: 37555 });
    expect(chosenLines.map((one) => [one.id, one.aloneHundredths, one.hundredths, one.labourCents])).toEqual([
      ['A', 190, 150, 19425],
      ['B', 180, 140, 18130],
    ]);
    // Alone 1.9 h = 246.05, 1.8 h = 233.10, 1.2 h = 155.40. C adds its tensioner only: 3.3 h = 427.35, 51.80 more.
    expect(chosenLines.map((one) => one.aloneTotalCents)).toEqual([24605, 23310]);
    expect(openLines).toMatchObject([
      { id: 'C', aloneHundredths: 120, aloneTotalCents: 15540, ifAddedHundredths: 40, ifAddedCents: 5180 },
    ]);
  });

  it('takes three lines off twice less, not three times: 3.3 h instead of 4.9 h', () => {
    // 0.8 h / 3 each: exactly 136.67, 126.67 and 66.67 hundredths; the two odd hundredths go to A and B. 3.3 h × 129.50 =
    // 427.35; by 137 : 127 : 66 that is 177.415, 164.465 and 85.47; the odd cent goes to A.
    const { totals, chosenLines } = price([A, B, C], ['A', 'B', 'C']);
    expect(totals).toMatchObject({ hundredths: 330, labourCents: 42735 });
    expect(chosenLines.map((one) => [one.hundredths, one.labourCents])).toEqual([
      [137, 17742],
      [127, 16446],
      [66, 8547],
    ]);
  });

  it('charges nothing for a step that the owner has agreed to before', () => {
    const paid = ['drain', 'belt off', 'cover off', 'pump', 'refill'].map((step) => ({
      step,
      position: 'engine',
    }));
    const given = { steps: paid, labourCents: cents(24605), suppliesCents: cents(0) };
    const { totals, chosenLines } = price([A, B, C], ['B', 'C'], FREE, given);
    // Left are the timing belt, 1.0 h = 129.50, and the tensioner, 0.4 h = 51.80.
    expect(chosenLines.map((one) => [one.aloneHundredths, one.hundredths, one.labourCents])).toEqual([
      [100, 100, 12950],
      [40, 40, 5180],
    ]);
    expect(totals.labourCents).toBe(18130);
  });

  it('tells the same step at two positions apart', () => {
    const at = (id: string, position: string): EstimateLine => ({
      ...line(id, {}),
      steps: [{ step: 'wheel off', position, hundredths: bookHundredths(20) }],
    });
    const both = [at('A', 'front-left'), at('B', 'front-right')];
    expect(price(both, ['A', 'B']).totals.hundredths).toBe(40);
    const given = { ...NOTHING_AGREED, steps: [{ step: 'wheel off', position: 'front-left' }] };
    expect(price(both, ['A', 'B'], FREE, given).chosenLines.map((one) => one.hundredths)).toEqual([0, 20]);
  });

  it('rounds each rate once: published half-up products', () => {
    // 1.3 h × 129.50 = 168.350; 0.7 × 94.95 = 66.465 → 66.47; 0.1 × 117.35 = 11.735 → 11.74; 1.25 × 98.77 = 123.4625
    // → 123.46 (decimal arithmetic, half up).
    const jobs: [number, number, number][] = [
      [130, 12950, 16835],
      [70, 9495, 6647],
      [10, 11735, 1174],
      [125, 9877, 12346],
    ];
    for (const [hours, rate, expected] of jobs) {
      const one = line('A', { work: hours }, { rateCentsPerHour: cents(rate) });
      expect(price([one], ['A']).totals.labourCents).toBe(expected);
    }
    // Three lines of 0.1 h at 117.35 are 35.205 → 35.21 together, not three times 11.74.
    const three = ['A', 'B', 'C'].map((id) => line(id, { [id]: 10 }, { rateCentsPerHour: cents(11735) }));
    const { totals, chosenLines } = price(three, ['A', 'B', 'C']);
    expect(totals.labourCents).toBe(3521);
    expect(chosenLines.map((one) => one.labourCents)).toEqual([1174, 1174, 1173]);
  });

  it('sells a step that two rates share at the dearer one, so that a cheap line never lowers the bill', () => {
    // The shared hour: both pay 100.00 / 2, the dear line the difference of 80.00 by itself: 130.00 and 50.00. The cheap
    // line's own half hour is 50.00. By hand from the airport game: Littlechild and Owen 1973.
    const dear = line('D', { 'dash out': 100 }, { rateCentsPerHour: cents(18000) });
    const cheap = line('E', { 'dash out': 100, heater: 50 }, { rateCentsPerHour: cents(10000) });
    const { totals, chosenLines, openLines } = price([dear, cheap], ['D', 'E']);
    expect(totals).toMatchObject({ hundredths: 150, labourCents: 23000 });
    expect(chosenLines.map((one) => [one.hundredths, one.labourCents])).toEqual([
      [50, 13000],
      [100, 10000],
    ]);
    expect(openLines).toEqual([]);
    expect(price([dear, cheap], ['D']).openLines).toMatchObject([{ ifAddedCents: 5000 }]);
  });
});

describe('items and core deposits', () => {
  const brakes = line(
    'A',
    { work: 100 },
    {
      items: [
        item('caliper', 'part', 100, 18999, 4500),
        item('fluid', 'fluid', 75, 1465),
        item('machining', 'sublet', 100, 25300),
        item('disposal', 'fee', 100, 350),
      ],
    },
  );

  it('shows the core deposit as a figure of its own, in the total', () => {
    // A part of 189.99 with a core of 45.00: the owner pays 234.99 until the core comes back. 0.75 × 14.65 = 10.9875 → 10.99.
    const { totals } = price([brakes], ['A']);
    expect(totals).toMatchObject({
      partsCents: 18999 + 1099 + 25300 + 350,
      coreCents: 4500,
      labourCents: 12950,
      totalCents: 12950 + 45748 + 4500,
    });
  });

  it('takes the deposit for each unit', () => {
    const pair = line('A', {}, { items: [item('caliper', 'part', 200, 18999, 4500)] });
    expect(price([pair], ['A']).totals).toMatchObject({
      partsCents: 37998,
      coreCents: 9000,
      totalCents: 46998,
    });
  });

  it('taxes each kind where the rule says so, and the core like a part', () => {
    const tax = (on: PricingPolicy['taxes'][number]['on']): number =>
      price([brakes], ['A'], { ...FREE, taxes: [{ name: 'sales tax', ratePpm: ppm(100_000), on }] }).totals
        .taxCents;
    // Ten percent, half up: of 189.99 + 45.00, 10.99, 253.00, 3.50 and 129.50.
    expect(tax(['part'])).toBe(2350);
    expect(tax(['fluid'])).toBe(110);
    expect(tax(['sublet'])).toBe(2530);
    expect(tax(['fee'])).toBe(35);
    expect(tax(['labour'])).toBe(1295);
    expect(tax(['part', 'fluid', 'sublet', 'fee', 'labour'])).toBe(6320);
    expect(tax([])).toBe(0);
  });
});

describe('tax by line and by invoice', () => {
  const vectors = [
    // Streamlined Sales and Use Tax Agreement s. 324(B): item or invoice basis; products computed by hand.
    { prices: [1030, 1030, 1030], rate: 72_500, perLine: [75, 75, 75], byInvoice: 224, spread: [75, 75, 74] },
    {
      prices: [99, 99, 99, 99, 99],
      rate: 60_000,
      perLine: [6, 6, 6, 6, 6],
      byInvoice: 30,
      spread: [6, 6, 6, 6, 6],
    },
    { prices: [7, 7, 7], rate: 70_000, perLine: [0, 0, 0], byInvoice: 1, spread: [1, 0, 0] },
  ];
  it.each(vectors)(
    'rounds $prices at $rate ppm as the seller chose',
    ({ prices, rate, perLine, byInvoice, spread }) => {
      const lines = prices.map((amount, at) =>
        line(`L${at}`, {}, { items: [item('p', 'part', 100, amount)] }),
      );
      const taxed = (taxRounding: PricingPolicy['taxRounding']): ReturnType<typeof price> =>
        price(
          lines,
          lines.map(({ id }) => id),
          { ...FREE, taxRounding, taxes: [{ name: 'sales tax', ratePpm: ppm(rate), on: ['part'] }] },
        );
      const line_ = taxed('line');
      expect(line_.chosenLines.map((one) => one.taxCents)).toEqual(perLine);
      expect(line_.totals.taxCents).toBe(perLine.reduce((sum, tax) => sum + tax, 0));
      const invoice = taxed('invoice');
      expect(invoice.totals.taxCents).toBe(byInvoice);
      expect(invoice.chosenLines.map((one) => one.taxCents)).toEqual(spread);
    },
  );

  it('keeps two taxes apart by name', () => {
    const taxes = [
      { name: 'state', ratePpm: ppm(60_000), on: ['part' as const] },
      { name: 'city', ratePpm: ppm(12_500), on: ['part' as const, 'labour' as const] },
    ];
    const one = line('A', { work: 100 }, { items: [item('p', 'part', 100, 1030)] });
    // State 6 % of 10.30 = 0.618 → 0.62; city 1.25 % of 139.80 = 1.7475 → 1.75.
    const { totals } = price([one], ['A'], { ...FREE, taxes });
    expect(totals.taxes).toEqual([
      { name: 'state', cents: 62 },
      { name: 'city', cents: 175 },
    ]);
    expect(totals.taxCents).toBe(237);
  });
});

describe('shop supplies', () => {
  const supplies = { ratePpm: ppm(60_000), floorCents: cents(0), capCents: cents(3500) };
  const at = (labour: number, over: Partial<typeof supplies> = {}, given = NOTHING_AGREED): number => {
    const one = line('A', { work: 100 }, { rateCentsPerHour: cents(labour) });
    return price([one], ['A'], { ...FREE, supplies: { ...supplies, ...over } }, given).totals.suppliesCents;
  };

  it('are a percentage of labour under a cap', () => {
    // Six percent, cap 35.00: of nothing 0, of 123.45 7.407 → 7.41, of 583.34 35.0004 → the cap, of 900.00 the cap.
    expect([0, 12345, 58334, 90000].map((labour) => at(labour))).toEqual([0, 741, 3500, 3500]);
    expect(at(1000, { floorCents: cents(500) })).toBe(500);
  });

  it('count what was agreed before, so that floor and cap hold once for the repair order', () => {
    const before = (labour: number, charged: number): AlreadyAgreed => ({
      steps: [],
      labourCents: cents(labour),
      suppliesCents: cents(charged),
    });
    // 500.00 before was charged 30.00; with 123.45 more the cap leaves 5.00.
    expect(at(12345, {}, before(50000, 3000))).toBe(500);
    expect(at(12345, {}, before(60000, 3500))).toBe(0);
    // A floor of 10.00 charged before covers 6 % of (100.00 + 50.00) = 9.00.
    expect(at(5000, { floorCents: cents(1000) }, before(10000, 1000))).toBe(0);
    // Charged more before than today's rule would: nothing comes back by itself.
    expect(at(5000, {}, before(10000, 9999))).toBe(0);
  });

  it('do not follow a line without labour', () => {
    const part = line('A', {}, { items: [item('p', 'part', 100, 5000)] });
    const given = { steps: [], labourCents: cents(10000), suppliesCents: cents(0) };
    const policy = { ...FREE, supplies: { ...supplies, floorCents: cents(900) } };
    expect(price([part], ['A'], policy, given).totals.suppliesCents).toBe(0);
  });

  it('are spread over the lines by their labour', () => {
    // 6 % of 375.55 = 22.533 → 22.53, by 194.25 : 181.30 = 11.6533 and 10.8767; the odd cent to B.
    const { chosenLines } = price([A, B], ['A', 'B'], { ...FREE, supplies });
    expect(chosenLines.map((one) => one.suppliesCents)).toEqual([1165, 1088]);
  });
});

describe('choosing in two steps', () => {
  it('sells a shared step once, to the line that came first', () => {
    const policy: PricingPolicy = {
      taxes: [],
      taxRounding: 'invoice',
      supplies: { ratePpm: ppm(60_000), floorCents: cents(0), capCents: null },
    };
    const first = price([A, B, C], ['A'], policy);
    const given = addToAgreed(NOTHING_AGREED, [A, B, C], first);
    expect(given).toMatchObject({ labourCents: 24605, suppliesCents: 1476 });
    const second = price([A, B, C], ['B'], policy, given);
    expect(second.totals).toMatchObject({ hundredths: 100, labourCents: 12950, suppliesCents: 777 });
    expect(first.totals.hundredths + second.totals.hundredths).toBe(290);
  });
});

describe('what cannot be priced', () => {
  const code = (over: Partial<ChoiceInput>): string => {
    const result = priceChoice({ lines: [A, B], chosen: [], given: NOTHING_AGREED, policy: FREE, ...over });
    return result.ok ? 'ok' : result.fault.code;
  };
  const priced = (over: Partial<EstimateItem>): Partial<ChoiceInput> => ({
    lines: [line('A', {}, { items: [{ ...item('p', 'part', 100, 100), ...over }] })],
  });

  it('is an unknown line, a line listed twice, or two taxes of one name', () => {
    expect(code({ chosen: ['A', 'X'] })).toBe('line-unknown');
    expect(code({ lines: [A, B, A] })).toBe('line-listed-twice');
    const tax = { name: 'state', ratePpm: ppm(1), on: [] };
    expect(code({ policy: { ...FREE, taxes: [tax, tax] } })).toBe('tax-named-twice');
  });

  it('is a step with two different hours, chosen or not', () => {
    expect(code({ lines: [A, line('Z', { pump: 61 })], chosen: ['A'] })).toBe('step-hours-differ');
  });

  it('is a figure below zero, with a fraction or beyond all reason, and the field is pointed at', () => {
    expect(code(priced({ unitPriceCents: -1 as never }))).toBe('figure-invalid');
    expect(code(priced({ quantityHundredths: 1.5 }))).toBe('figure-invalid');
    expect(code(priced({ coreCents: Number.NaN as never }))).toBe('figure-invalid');
    expect(code(priced({ unitPriceCents: cents(100_000_001) }))).toBe('figure-invalid');
    expect(code({ given: { ...NOTHING_AGREED, suppliesCents: cents(-1) } })).toBe('figure-invalid');
    const faulty = priceChoice({
      lines: [A, line('Z', {}, { rateCentsPerHour: -5 as never })],
      chosen: [],
      given: NOTHING_AGREED,
      policy: { ...FREE, taxes: [{ name: 'state', ratePpm: ppm(1_000_001), on: [] }] },
    });
    expect(faulty).toMatchObject({
      ok: false,
      fault: { fields: [{ pointer: '/lines/1/rateCentsPerHour' }, { pointer: '/policy/taxes/0/ratePpm' }] },
    });
  });

  it('is not a line that is chosen twice, nor a choice of nothing', () => {
    expect(price([A, B], ['A', 'A']).totals).toEqual(price([A, B], ['A']).totals);
    expect(price([A, B], []).totals).toMatchObject({ hundredths: 0, totalCents: 0 });
    expect(price([], []).totals.totalCents).toBe(0);
  });
});
