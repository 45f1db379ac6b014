import { cents } from '#libs/kernel';
import fc from 'fast-check';
import { addDecimals } from './add-decimals.js';
import { decimalFromCents } from './decimal-from-cents.js';
import { formatDecimal } from './format-decimal.js';
import { parseDecimalCents } from './parse-decimal-cents.js';
import { parseDecimal } from './parse-decimal.js';
import { parseRatePpm } from './parse-rate-ppm.js';
import { roundDecimal } from './round-decimal.js';

const faultCode = (result: { ok: boolean; fault?: { code: string } }) => result.fault?.code;

describe('parseDecimal and formatDecimal', () => {
  it('reads plain decimals exactly, however long', () => {
    expect(parseDecimal('10.05')).toEqual({ ok: true, value: { units: 1005n, scale: 2 } });
    expect(parseDecimal('-3')).toEqual({ ok: true, value: { units: -3n, scale: 0 } });
    expect(parseDecimal('.065')).toEqual({ ok: true, value: { units: 65n, scale: 3 } });
    expect(parseDecimal('12345678901234567890.1')).toEqual({
      ok: true,
      value: { units: 123456789012345678901n, scale: 1 },
    });
  });

  it.each([
    '',
    '-',
    '.',
    '5.',
    '+5',
    '1e3',
    '1,000.00',
    '$5',
    '0x10',
    'NaN',
    'Infinity',
    '1.2.3',
    '--1',
    ' 1',
    '1\n',
    '٣',
  ])('refuses %j, which two people could read as two numbers', (text) => {
    expect(faultCode(parseDecimal(text))).toBe('decimal-invalid');
  });

  it('refuses a text without end', () => {
    expect(faultCode(parseDecimal('9'.repeat(401)))).toBe('decimal-invalid');
  });

  it('what is written reads back as the same number', () => {
    fc.assert(
      fc.property(fc.bigInt(), fc.nat(30), (units, scale) => {
        expect(parseDecimal(formatDecimal({ units, scale }))).toEqual({ ok: true, value: { units, scale } });
      }),
    );
  });

  it('writes small amounts with their zeros', () => {
    expect(formatDecimal({ units: -5n, scale: 2 })).toBe('-0.05');
    expect(formatDecimal({ units: 0n, scale: 2 })).toBe('0.00');
    expect(formatDecimal({ units: 7n, scale: 0 })).toBe('7');
  });
});

describe('addDecimals and roundDecimal', () => {
  it('adds across scales without loss', () => {
    const tenth = { units: 1n, scale: 1 };
    expect(addDecimals([tenth, { units: 2n, scale: 1 }])).toEqual({ units: 3n, scale: 1 });
    expect(addDecimals([tenth, { units: -1n, scale: 20 }])).toEqual({ units: 10n ** 19n - 1n, scale: 20 });
    expect(addDecimals([])).toEqual({ units: 0n, scale: 0 });
  });

  it('rounds once, and pads when asked for more digits', () => {
    expect(roundDecimal({ units: 744575n, scale: 6 }, 2)).toEqual({ units: 74n, scale: 2 });
    expect(roundDecimal({ units: 125n, scale: 3 }, 2, 'half-even')).toEqual({ units: 12n, scale: 2 });
    expect(roundDecimal({ units: 3n, scale: 0 }, 2)).toEqual({ units: 300n, scale: 2 });
  });
});

describe('parseDecimalCents', () => {
  it('reads amounts as whole cents', () => {
    expect(parseDecimalCents('1234.5')).toEqual({ ok: true, value: 123450 });
    expect(parseDecimalCents(' -0.07 ')).toEqual({ ok: true, value: -7 });
    expect(parseDecimalCents('1.500')).toEqual({ ok: true, value: 150 });
    expect(parseDecimalCents('-0')).toEqual({ ok: true, value: 0 });
  });

  it('refuses a fraction of a cent and an amount that cannot be kept', () => {
    expect(faultCode(parseDecimalCents('1.005'))).toBe('amount-too-fine');
    expect(faultCode(parseDecimalCents('90071992547409.92'))).toBe('amount-too-large');
    expect(faultCode(parseDecimalCents('1,50'))).toBe('decimal-invalid');
  });

  it('every amount survives being written and read', () => {
    fc.assert(
      fc.property(fc.maxSafeInteger().map(cents), (amount) => {
        const text = formatDecimal(decimalFromCents(amount));
        expect(parseDecimalCents(text)).toEqual({ ok: true, value: amount });
      }),
      { numRuns: 1000 },
    );
  });
});

describe('parseRatePpm', () => {
  it('reads a rate as whole millionths', () => {
    expect(parseRatePpm('0.065')).toEqual({ ok: true, value: 65000 });
    expect(parseRatePpm('0.0725000')).toEqual({ ok: true, value: 72500 });
    expect(parseRatePpm('1')).toEqual({ ok: true, value: 1_000_000 });
  });

  it('refuses a rate that is finer, negative or endless', () => {
    expect(faultCode(parseRatePpm('0.0662501'))).toBe('rate-too-fine');
    expect(faultCode(parseRatePpm('-0.05'))).toBe('rate-negative');
    expect(faultCode(parseRatePpm('9999999999.5'))).toBe('rate-too-large');
    expect(faultCode(parseRatePpm('6.5%'))).toBe('decimal-invalid');
  });
});
