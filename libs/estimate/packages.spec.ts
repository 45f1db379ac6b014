import { bookHundredths, cents } from '#libs/kernel';
import { addToAgreed } from './add-to-agreed.js';
import { agreedFrom } from './agreed-from.js';
import { NOTHING_AGREED } from './already-agreed.js';
import type { AlreadyAgreed } from './already-agreed.js';
import { carriedSteps } from './carried-steps.js';
import type { ChoicePrice } from './choice-price.js';
import type { EstimateLine } from './estimate-line.js';
import type { LinePackage } from './line-package.js';
import { priceChoice } from './price-choice.js';
import type { PricingPolicy } from './pricing-policy.js';

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

// Pump 1.9 h, belt 1.8 h, 0.8 h of dismantling shared: 2.9 h together. The shop does the two in 2.5 h.
const pump = line('pump', { 'cover off': 80, pump: 110 });
const belt = line('belt', { 'cover off': 80, belt: 100 });
const hose = line('hose', { 'cover off': 80, hose: 30 });
const lamp = line('lamp', { lamp: 20 });
const both: LinePackage = {
  name: 'Belt and pump',
  lineIds: ['pump', 'belt'],
  hundredths: bookHundredths(250),
};

const price = (
  lines: readonly EstimateLine[],
  chosen: readonly string[],
  packages: readonly LinePackage[] = [both],
  given: AlreadyAgreed = NOTHING_AGREED,
): ChoicePrice => {
  const result = priceChoice({ lines, chosen, given, policy: FREE, packages });
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const hoursOf = ({ lines }: ChoicePrice): (number | null)[] =>
  lines.map((one) => (one.chosen ? one.hundredths : null));
const ALL = [pump, belt, hose, lamp];

// By hand from the definition of a package; there is no published example of one.
describe('a package', () => {
  it('replaces the sum of the steps for exactly its lines, and each carries its part', () => {
    const whole = price(ALL, ['pump', 'belt']);
    expect(whole.totals).toMatchObject({ hundredths: 250, labourCents: 25_000, discountCents: 0 });
    // Steps of 0.80, 1.10 and 1.00 h at 250/290: 68.97, 94.83 and 86.21; the two odd hundredths to cover and pump. Pump 95 + 34.5,
    // belt 86 + 34.5, and the odd half to belt, whose id comes first.
    expect(hoursOf(whole)).toEqual([129, 121, null, null]);
    expect(whole.packages).toMatchObject([{ name: 'Belt and pump' }]);
  });

  it('holds beside a line that shares nothing with it, and not beside one that does', () => {
    expect(price(ALL, ['pump', 'belt', 'lamp']).totals.hundredths).toBe(270);
    expect(price(ALL, ['pump', 'belt', 'hose']).totals.hundredths).toBe(320);
    expect(price(ALL, ['pump']).totals.hundredths).toBe(190);
  });

  it('does not hold where some of its steps were agreed to before', () => {
    const given = { ...NOTHING_AGREED, steps: [{ step: 'cover off', position: 'engine' }] };
    expect(price(ALL, ['pump', 'belt'], [both], given).totals.hundredths).toBe(210);
  });

  it('takes what it saves off the cheapest labour first, so that no part of it is dearer than the whole', () => {
    // Belt at 50.00: 0.4 h come off its own step. 0.8 + 1.1 h at 100.00 and 0.6 h at 50.00.
    const cheap = { ...belt, rateCentsPerHour: cents(5000) };
    expect(price([pump, cheap], ['pump', 'belt']).totals).toMatchObject({
      hundredths: 250,
      labourCents: 22_000,
    });
    const free: EstimateLine = { ...belt, noCharge: 'warranty' };
    expect(price([pump, free], ['pump', 'belt']).totals).toMatchObject({
      hundredths: 250,
      labourCents: 19_000,
    });
  });

  it('must take no less than any part of its lines and no more than all of them', () => {
    const at = (hundredths: number): unknown => {
      const packages = [{ ...both, hundredths: bookHundredths(hundredths) }];
      const result = priceChoice({ lines: ALL, chosen: [], given: NOTHING_AGREED, policy: FREE, packages });
      return result.ok ? 'ok' : [result.fault.code, result.fault.facts];
    };
    const range = { lowHundredths: 190, highHundredths: 290 };
    expect([at(190), at(290)]).toEqual(['ok', 'ok']);
    expect(at(189)).toEqual(['package-hours-impossible', range]);
    expect(at(291)).toEqual(['package-hours-impossible', range]);
  });

  it('gives way to another that overlaps it and saves more', () => {
    const lines = [line('a', { a: 100 }), line('b', { b: 100 }), line('c', { c: 100 })];
    const own = (lineIds: string[], hundredths: number): LinePackage => ({
      name: lineIds.join(),
      lineIds,
      hundredths: bookHundredths(hundredths),
    });
    const packages = [own(['a', 'b'], 150), own(['b', 'c'], 140), own(['a', 'b', 'c'], 250)];
    expect(price(lines, ['a', 'b', 'c'], packages).totals.hundredths).toBe(240);
    expect(price(lines, ['a', 'b'], packages).totals.hundredths).toBe(150);
  });
});

describe('a package of which work has begun on a part', () => {
  const agreedOf = (ids: readonly string[], whole: ChoicePrice): AlreadyAgreed => {
    const carried = carriedSteps(ALL, ['pump', 'belt'], NOTHING_AGREED, [both]);
    return agreedFrom(
      whole.lines.flatMap((one) =>
        one.chosen && ids.includes(one.id) ? [{ ...one, steps: carried.get(one.id) ?? [] }] : [],
      ),
    );
  };
  const frozen: LinePackage = {
    ...both,
    steps: [
      { step: 'belt', position: 'engine', hundredths: bookHundredths(86) },
      { step: 'cover off', position: 'engine', hundredths: bookHundredths(69) },
      { step: 'pump', position: 'engine', hundredths: bookHundredths(95) },
    ],
  };

  it('keeps its hours for the lines that are still open', () => {
    const whole = price(ALL, ['pump', 'belt']);
    const given = agreedOf(['pump'], whole);
    // The belt carried 0.86 h of its own and half of 0.69 h; the pump is no longer among the lines.
    const rest = price([belt, hose, lamp], ['belt', 'lamp'], [frozen], given);
    expect(hoursOf(rest)).toEqual([120, null, 20]);
    // Beside a line that shares a step it does not hold any more: 1.0 + 0.3 h and the half of the cover that is open.
    expect(price([belt, hose, lamp], ['belt', 'hose'], [frozen], given).totals.hundredths).toBe(170);
  });

  it('has sold its steps in full once all of it was agreed to', () => {
    const whole = price(ALL, ['pump', 'belt']);
    expect(price([hose], ['hose'], [frozen], agreedOf(['pump', 'belt'], whole)).totals.hundredths).toBe(30);
    const given = addToAgreed(NOTHING_AGREED, ALL, whole);
    expect(price(ALL, ['hose'], [both], given).totals.hundredths).toBe(30);
    expect(price(ALL, ['pump', 'belt'], [both], given).totals.hundredths).toBe(0);
  });
});

describe('labour that nobody pays for', () => {
  const free: EstimateLine = { ...pump, noCharge: 'comeback' };
  it('is agreed to by nobody, so that a line that shares its steps costs what it adds, then as now', () => {
    const first = price([free, belt], ['pump'], []);
    const given = addToAgreed(NOTHING_AGREED, [free, belt], first);
    expect(price([free, belt], ['belt'], [], given).totals.labourCents).toBe(18_000);
    const carried = carriedSteps([free, belt], ['pump'], NOTHING_AGREED).get('pump') ?? [];
    expect(carried.every(({ unpaid }) => unpaid === true)).toBe(true);
    const agreed = agreedFrom([{ steps: carried, labourCents: cents(0), suppliesCents: cents(0) }]);
    expect(price([belt], ['belt'], [], agreed).totals.labourCents).toBe(18_000);
  });
});
