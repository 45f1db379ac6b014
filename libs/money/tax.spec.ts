import { cents, ppm } from '#libs/kernel';
import fc from 'fast-check';
import { formatDecimal } from './format-decimal.js';
import { parseDecimalCents } from './parse-decimal-cents.js';
import { parseDecimal } from './parse-decimal.js';
import { parseRatePpm } from './parse-rate-ppm.js';
import { taxOnDecimal } from './tax-on-decimal.js';
import { taxOn } from './tax-on.js';
import { taxPerInvoice } from './tax-per-invoice.js';
import { taxPerLine } from './tax-per-line.js';

const read = <T>(result: { ok: true; value: T } | { ok: false }): T => {
  if (!result.ok) throw new Error('the vector does not parse');
  return result.value;
};
const amount = (text: string) => read(parseDecimalCents(text));
const rate = (text: string) => read(parseRatePpm(text));

describe('tax on one amount', () => {
  // Method: Streamlined Sales and Use Tax Agreement s. 324 as enacted in R.I. Gen. Laws 44-18.1-25, N.D.C.C. 57-39.4-25 and
  // K.S.A. 79-3676: carry to the third decimal place, round up when it is above four. Figures worked from the exact product.
  it.each([
    ['10.05', '0.065', '0.65', '0.65'],
    ['12.30', '0.05', '0.62', '0.62'],
    ['0.10', '0.05', '0.01', '0.00'],
    ['0.09', '0.05', '0.00', '0.00'],
    ['66.99', '0.005', '0.33', '0.33'],
    ['199.99', '0.0825', '16.50', '16.50'],
    ['8.70', '0.0675', '0.59', '0.59'],
    // Rounding the third decimal first would give 0.75 and 0.34 here.
    ['10.27', '0.0725', '0.74', '0.74'],
    ['4.10', '0.06', '0.25', '0.25'],
    ['12.50', '0.05', '0.63', '0.62'],
  ])('%s at %s is %s half up and %s half even', (net, at, halfUp, halfEven) => {
    expect(taxOn(amount(net), rate(at))).toBe(amount(halfUp));
    expect(taxOn(amount(net), rate(at), 'half-even')).toBe(amount(halfEven));
    const exact = (rounding: 'half-up' | 'half-even') =>
      formatDecimal(taxOnDecimal(read(parseDecimal(net)), read(parseDecimal(at)), rounding));
    expect(exact('half-up')).toBe(halfUp);
    expect(exact('half-even')).toBe(halfEven);
  });

  it('a rate finer than a millionth is taken exactly', () => {
    // 100000.00 at 6.62505001 % is 6625.05001 exactly; at six digits it would be 6625.00 or 6625.10.
    const tax = taxOnDecimal({ units: 100000n, scale: 0 }, { units: 662505001n, scale: 10 });
    expect(formatDecimal(tax)).toBe('6625.05');
  });

  it('a full refund returns exactly the tax that was charged', () => {
    expect(taxOn(cents(1250), ppm(50_000))).toBe(63);
    expect(taxOn(cents(-1250), ppm(50_000))).toBe(-63);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e12 }), fc.integer({ min: 0, max: 1_000_000 }), (net, at) => {
        for (const rounding of ['half-up', 'half-even'] as const) {
          const charged = taxOn(cents(net), ppm(at), rounding);
          expect(taxOn(cents(-net), ppm(at), rounding)).toBe(cents(0 - charged));
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('the statutory third-decimal rule and half up agree on every charge', () => {
    fc.assert(
      fc.property(fc.nat(100_000_000), fc.nat(300_000), (net, at) => {
        // The statute, word by word: cut after the third decimal of the dollar, look at that digit.
        const thousandths = (BigInt(net) * BigInt(at)) / 100_000n;
        const statutory = thousandths / 10n + (thousandths % 10n > 4n ? 1n : 0n);
        expect(BigInt(taxOn(cents(net), ppm(at)))).toBe(statutory);
      }),
      { numRuns: 3000 },
    );
  });
});

describe('tax per line and per invoice', () => {
  // SSUTA s. 324(B): the seller may choose the item or the invoice basis. Figures worked from the exact product.
  it.each([
    [['10.30', '10.30', '10.30'], '0.0725', ['0.75', '0.75', '0.75'], '2.25', '2.24'],
    [
      ['0.99', '0.99', '0.99', '0.99', '0.99'],
      '0.06',
      ['0.06', '0.06', '0.06', '0.06', '0.06'],
      '0.30',
      '0.30',
    ],
    [['0.07', '0.07', '0.07'], '0.07', ['0.00', '0.00', '0.00'], '0.00', '0.01'],
  ])('%j at %s', (nets, at, perLine, sumPerLine, invoice) => {
    const lines = nets.map(amount);
    expect(taxPerLine(lines, rate(at))).toEqual({ perLine: perLine.map(amount), total: amount(sumPerLine) });
    expect(taxPerInvoice(lines, rate(at))).toBe(amount(invoice));
  });

  it('the two bases differ by half a cent a line at most', () => {
    const lines = fc.array(fc.integer({ min: -1e9, max: 1e9 }), { maxLength: 20 });
    fc.assert(
      fc.property(lines, fc.nat(500_000), (nets, at) => {
        const given = nets.map(cents);
        const difference = taxPerLine(given, ppm(at)).total - taxPerInvoice(given, ppm(at));
        expect(2 * Math.abs(difference)).toBeLessThanOrEqual(given.length + 1);
      }),
      { numRuns: 1000 },
    );
  });

  it('no lines, no tax', () => {
    expect(taxPerLine([], ppm(65_000))).toEqual({ perLine: [], total: 0 });
    expect(taxPerInvoice([], ppm(65_000))).toBe(0);
  });
});
