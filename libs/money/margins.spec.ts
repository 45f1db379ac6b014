import fc from 'fast-check';
import { cents, ppm } from '#libs/kernel';
import { decimalFromNumber } from './decimal-from-number.js';
import { formatDecimal } from './format-decimal.js';
import { marginFromMarkup } from './margin-from-markup.js';
import { marginOf } from './margin-of.js';
import { markUp } from './mark-up.js';
import { parseDecimal } from './parse-decimal.js';
import { priceForMargin } from './price-for-margin.js';

const percent = (markup: string, scale = 2): string => {
  const read = parseDecimal(markup);
  if (!read.ok) throw new Error(read.fault.detail);
  const margin = marginFromMarkup({ ...read.value, scale: read.value.scale + 2 }, scale + 2);
  return margin.ok ? formatDecimal({ ...margin.value, scale }) : margin.fault.code;
};
const priceAt = (cost: number, margin: number): number => {
  const price = priceForMargin(cents(cost), ppm(margin));
  if (!price.ok) throw new Error(price.fault.detail);
  return price.value;
};

describe('the margin of a markup', () => {
  // margin = markup / (1 + markup), the trade's definition; figures worked by an independent program. The last: a sublet at 15 %.
  it.each([
    ['25.0', 2, '20.00'],
    ['33.3333333333', 2, '25.00'],
    ['50.0', 2, '33.33'],
    ['66.6666666667', 2, '40.00'],
    ['150.0', 2, '60.00'],
    ['200.0', 2, '66.67'],
    ['15', 4, '13.0435'],
    ['0', 2, '0.00'],
    ['-20', 2, '-25.00'],
    ['-100', 2, 'markup-invalid'],
    ['-100.5', 2, 'markup-invalid'],
  ])('%s percent on the cost, to %i places, is %s percent of the price', (markup, scale, margin) => {
    expect(percent(markup, scale)).toBe(margin);
  });

  it('is the margin of the price that the markup makes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 20_000_000 }), (markup) => {
        const margin = marginFromMarkup({ units: BigInt(markup), scale: 6 }, 6);
        // A cost at which every markup makes a whole price.
        const cost = cents(1_000_000);
        expect(margin).toEqual({
          ok: true,
          value: { units: BigInt(marginOf(cost, markUp(cost, ppm(markup))) ?? -1), scale: 6 },
        });
      }),
    );
  });
});

describe('the price for a margin', () => {
  // cost / (1 - margin), by hand: 220 / 0.6 = 366.666..., 75 / 0.75 = 100, 1 / 0.001 = 1000.
  it.each([
    [22_000, 400_000, 36_667],
    [7500, 250_000, 10_000],
    [100, 999_000, 100_000],
    [1999, 0, 1999],
    [0, 500_000, 0],
    [-7500, 250_000, -10_000],
  ])('%i cents at a margin of %i millionths sell at %i', (cost, margin, price) => {
    expect(priceAt(cost, margin)).toBe(price);
  });

  it('leaves that margin to within a cent of the price, and rises with cost and with margin', () => {
    fc.assert(
      fc.property(
        fc.nat(50_000_000),
        fc.nat(990_000),
        fc.nat(5000),
        fc.nat(9000),
        (cost, margin, more, wider) => {
          const price = priceAt(cost, margin);
          // Of the price p, (1 - m) p must be the cost; a price half a cent off moves it by half a cent at most.
          const kept = BigInt(price) * BigInt(1_000_000 - margin) - BigInt(cost) * 1_000_000n;
          expect(2n * (kept < 0n ? -kept : kept) <= BigInt(1_000_000 - margin)).toBe(true);
          expect(priceAt(cost + more, margin)).toBeGreaterThanOrEqual(price);
          expect(priceAt(cost, margin + wider)).toBeGreaterThanOrEqual(price);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('refuses a margin that is no part of the price', () => {
    for (const margin of [-1, 999_001, 1_000_000, 1_500_000]) {
      expect(priceForMargin(cents(100), ppm(margin))).toMatchObject({
        ok: false,
        fault: { code: 'margin-invalid' },
      });
    }
  });
});

describe('a number as a decimal', () => {
  it.each([
    [0.1, '0.1'],
    [33.3333333333, '33.3333333333'],
    [-2.5, '-2.5'],
    [1.5e-7, '0.00000015'],
    [1e21, '1000000000000000000000'],
    [0, '0'],
  ])('%d is %s', (value, text) => {
    expect(formatDecimal(decimalFromNumber(value))).toBe(text);
  });

  it('refuses what is no number', () => {
    expect(() => decimalFromNumber(Number.NaN)).toThrow(RangeError);
    expect(() => decimalFromNumber(Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });
});
