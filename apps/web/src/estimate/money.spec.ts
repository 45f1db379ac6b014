import { moneyOf, readAmount } from './money.js';
import { ratioWords } from './ratio.js';

describe('an amount as it is typed with the phone at the ear', () => {
  it.each([
    ['1500', 150_000],
    ['1,500', 150_000],
    ['1 500', 150_000],
    ['€ 1,500.5', 150_050],
    ['1500,50', 150_050],
    ['1,234,567.89', 123_456_789],
    ['0', 0],
    ['12.', 1200],
  ])('reads %s', (text, cents) => expect(readAmount(text)).toBe(cents));

  it.each(['', 'about', '-5', '1.234', '1.2.3', '12345678901'])('does not guess at "%s"', (text) =>
    expect(readAmount(text)).toBeNull(),
  );
});

describe('money on the page', () => {
  it('is written in the currency of the shop', () => {
    expect(moneyOf('USD').full(124_005)).toBe('$1,240.05');
    expect(moneyOf('EUR').short(124_005)).toBe('€1,240');
    expect(ratioWords(670_000)).toBe('67 %');
    expect(ratioWords(400)).toBe('under 1 %');
  });
});
