import { cents } from '#libs/kernel';
import { formatCents } from './format-cents.js';

describe('formatCents', () => {
  // Two minor digits: ISO 4217, list one, for currencies counted in cents.
  it.each([
    [0, '0.00'],
    [7, '0.07'],
    [-7, '-0.07'],
    [99999, '999.99'],
    [123450, '1,234.50'],
    [-100000000, '-1,000,000.00'],
    [Number.MAX_SAFE_INTEGER, '90,071,992,547,409.91'],
  ])('shows %i cents as %s', (amount, text) => {
    expect(formatCents(cents(amount))).toBe(text);
  });

  it('puts the currency code in front when it is given', () => {
    expect(formatCents(cents(123450), 'USD')).toBe('USD 1,234.50');
  });
});
