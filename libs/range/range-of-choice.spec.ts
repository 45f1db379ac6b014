import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { contingencyCharge, NOTHING_AGREED, addToAgreed, priceChoice } from '#libs/estimate';
import type { AlreadyAgreed, ChoicePrice, EstimateItem, PricingPolicy } from '#libs/estimate';
import { rangeOfChoice } from './range-of-choice.js';
import type { ChoiceToRange, RangedContingency, RangedLine } from './range-of-choice.js';
import { range } from './range.js';

const step = (name: string, hundredths: number) => ({
  step: name,
  position: '',
  hundredths: bookHundredths(hundredths),
});
const part = (id: string, price: number, kind: EstimateItem['kind'] = 'part'): EstimateItem => ({
  id,
  kind,
  quantityHundredths: 100,
  unitPriceCents: cents(price),
});
const POLICY: PricingPolicy = {
  taxes: [{ name: 'tax', ratePpm: ppm(80_000), on: ['part', 'supplies'] }],
  taxRounding: 'invoice',
  supplies: { ratePpm: ppm(50_000), floorCents: cents(0), capCents: cents(2000) },
};
const PUMP: RangedLine = {
  id: 'pump',
  rateId: 'r',
  rateCentsPerHour: cents(10_000),
  steps: [step('cover off', 100), step('pump', 60)],
  items: [part('pump', 9000), part('waste', 500, 'fee')],
  spread: {
    lowHundredths: bookHundredths(120),
    highHundredths: bookHundredths(320),
    lowItemsCents: cents(8000),
    highItemsCents: cents(14_000),
  },
};
const BELT: RangedLine = {
  id: 'belt',
  rateId: 'r',
  rateCentsPerHour: cents(10_000),
  steps: [step('cover off', 100), step('belt', 80)],
  items: [part('belt', 4000)],
};

function priced(lines: readonly RangedLine[], policy = POLICY, given = NOTHING_AGREED): ChoicePrice {
  const price = priceChoice({ lines, chosen: lines.map(({ id }) => id), given, policy });
  if (!price.ok) throw new Error(price.fault.detail);
  return price.value;
}
const toRange = (lines: readonly RangedLine[], more: Partial<ChoiceToRange> = {}): ChoiceToRange => {
  const policy = more.policy ?? POLICY;
  const given: AlreadyAgreed = more.given ?? NOTHING_AGREED;
  return {
    lines,
    price: priced(lines, policy, given),
    given,
    policy,
    contingencies: [],
    unseen: [],
    commonSpreadPpm: ppm(0),
    agreed: new Set(),
    agreedCents: cents(0),
    ...more,
  };
};
function drawn(choice: ChoiceToRange, draws = 2000) {
  const result = range(rangeOfChoice(choice), { seed: 1, draws });
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
}

describe('the range of a choice', () => {
  it('is the price to the cent where nothing varies, shared steps once', () => {
    const sure: RangedLine = { ...PUMP, spread: undefined };
    const choice = toRange([sure, BELT]);
    const total = choice.price.totals.totalCents;
    // 2.4 h at 100; parts 90 + 5 + 40; supplies 5 percent of 240; 8 percent of 130 and of 12.
    expect(total).toBe(24_000 + 13_500 + 1200 + 1136);
    expect(drawn(choice)).toMatchObject({ p10Cents: total, p50Cents: total, p95Cents: total, sdCents: 0 });
  });

  it('lets a line vary in proportion to what it carries', () => {
    const input = rangeOfChoice(toRange([PUMP, BELT]));
    // The pump carries half of the cover: 1.1 h of its 1.6 h.
    expect(input.lines[0]).toMatchObject({
      id: 'pump',
      labour: { low: 8250, likely: 11_000, high: 22_000 },
      items: { low: 8000, likely: 9500, high: 14_000 },
      // Tax and supplies-bearing of the part only, not of the fee.
      itemsTaxPpm: Math.round((80_000 * 90) / 95),
      itemsBearPpm: Math.round(1_000_000 * (90 / 95)),
    });
    expect(input.lines[1]).toMatchObject({ labour: { low: 13_000, likely: 13_000, high: 13_000 } });
  });

  it('fixes what the owner has agreed to, and keeps the total', () => {
    const open = toRange([PUMP, BELT], { commonSpreadPpm: ppm(200_000) });
    const settled = { ...open, agreed: new Set(['pump', 'belt']), agreedCents: cents(5000) };
    const total = open.price.totals.totalCents + 5000;
    expect(drawn(settled)).toMatchObject({ p10Cents: total, p95Cents: total });
    const half = { ...open, agreed: new Set(['pump']) };
    expect(rangeOfChoice(half).lines.map(({ id }) => id)).toEqual(['belt']);
    // Supplies go on where those of the agreed line ended, so the cap still holds once for all.
    const sure = drawn({ ...half, commonSpreadPpm: ppm(0) });
    expect(sure).toMatchObject({ p10Cents: open.price.totals.totalCents, sdCents: 0 });
    expect(drawn(half).sdCents).toBeLessThan(drawn(open).sdCents);
  });

  it('labour that is not charged does not vary, and unseen checkpoints come with their own amounts', () => {
    const free = drawn(toRange([{ ...PUMP, noCharge: 'warranty' }], { commonSpreadPpm: ppm(300_000) }));
    const parts = drawn(toRange([{ ...PUMP, steps: [] }]));
    expect(free.shares.find(({ kind }) => kind === 'common')?.sharePpm).toBe(0);
    expect(free.p10Cents).toBeLessThanOrEqual(parts.p10Cents);
    const unseen = {
      checkpointId: 'hose',
      words: 'Brake hose',
      chancePpm: ppm(1_000_000),
      lowCents: cents(7000),
      likelyCents: cents(7000),
      highCents: cents(7000),
    };
    const sure = toRange([BELT]);
    expect(drawn({ ...sure, unseen: [unseen] }).p50Cents).toBe(sure.price.totals.totalCents + 7000);
  });

  it('a contingency that is sure to happen costs what it is charged at when it has happened, cap and all', () => {
    const terms = fc.record({
      hundredths: fc.nat(300).map(bookHundredths),
      price: fc.nat(9000),
      cap: fc.nat(40_000).map(cents),
      base: fc.constantFrom('labour', 'parts', 'labour-and-parts'),
      suppliesCap: fc.option(fc.constantFrom(500, 1300).map(cents), { nil: null }),
    });
    fc.assert(
      fc.property(terms, ({ hundredths, price, cap, base, suppliesCap }) => {
        const policy: PricingPolicy = {
          ...POLICY,
          supplies: { ratePpm: ppm(50_000), floorCents: cents(0), capCents: suppliesCap, base },
        };
        const lines = [BELT];
        const choice = toRange(lines, { policy });
        const offered: RangedContingency['offered'] = {
          id: 'nut',
          chancePpm: ppm(1_000_000),
          hundredths,
          items: [{ ...part('nut', price), words: 'Nut' }],
          capCents: cap,
        };
        const charged = contingencyCharge({
          ...offered,
          line: BELT,
          capCents: cap,
          given: addToAgreed(NOTHING_AGREED, lines, choice.price),
          policy,
        });
        if (!charged.ok) throw new Error(charged.fault.detail);
        const more = drawn({ ...choice, contingencies: [{ offered, line: BELT }] }, 100).p50Cents;
        const expected = choice.price.totals.totalCents + charged.value.figures.totalCents;
        // A cut may stop some cents short of the cap, and single cents are rounded.
        expect(more).toBeGreaterThanOrEqual(expected - 4);
        // Where the order's supplies are at their own cap, the range still reckons with them when it looks whether the
        // contingency reaches its cap: it may say more, by its supplies with tax and never more than that.
        const supplies = suppliesCap === null ? 0 : 0.05 * 1.08 * (hundredths * 100 + price);
        expect(more).toBeLessThanOrEqual(expected + supplies + 4);
      }),
      { numRuns: 1000 },
    );
  });
});
