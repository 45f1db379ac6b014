import { cents, ppm } from '#libs/kernel';
import { discountPart } from './discount-part.js';
import { formatsFor } from './formats.js';

describe('what a line costs less', () => {
  const formats = formatsFor('USD', 'America/New_York');
  const discount = { labourPpm: ppm(100_000), reason: 'Regular customer' };
  const words = (html: { readonly text: string }): string =>
    html.text
      .replace(/<[^>]+>/g, '')
      .replace(/\s+/g, ' ')
      .trim();
  const line = { discount, alone: { discountCents: cents(3593) } };

  it('is told with its reason and amount', () => {
    expect(words(discountPart(line, formats, {}))).toBe('Regular customer: $35.93 less.');
  });

  it('is told without an amount where a share is taken off the order too, which is no part of that reason', () => {
    const shared = { labourPpm: ppm(50_000), reason: 'Spring' };
    expect(words(discountPart(line, formats, { orderDiscount: shared }))).toBe('Regular customer');
    const once = { cents: cents(2000), reason: 'Spring' };
    expect(words(discountPart(line, formats, { orderDiscount: once }))).toBe(
      'Regular customer: $35.93 less.',
    );
  });
});
