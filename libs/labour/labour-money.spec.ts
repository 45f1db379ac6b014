import { bookHundredths, cents } from '#libs/kernel';
import fc from 'fast-check';
import { labourCents } from './labour-cents.js';
import { labourOfClass } from './labour-of-class.js';

describe('labourCents', () => {
  // Exact products worked by hand: 168.350, 66.465, 11.735, 123.4625, 299.975; a half goes up.
  it.each([
    [130, 12950, 16835],
    [70, 9495, 6647],
    [10, 11735, 1174],
    [125, 9877, 12346],
    [250, 11999, 29998],
  ])('%i hundredths at %i cents an hour are %i cents', (hundredths, rate, total) => {
    expect(labourCents(bookHundredths(hundredths), cents(rate))).toBe(total);
  });
});

describe('labourOfClass', () => {
  it('rounds the total once and places the cents on the lines', () => {
    // 1.00 h at 100.01: 100.01 in all. A third of an hour each is 33.3367, so the second line takes the odd cent by remainder.
    const priced = labourOfClass(bookHundredths(100), cents(10001), [33, 34, 33].map(bookHundredths));
    expect(priced).toEqual({ totalCents: 10001, parts: [3300, 3401, 3300] });
  });

  it('lines add up to the price of their hours, each within a cent of its own', () => {
    const lines = fc.array(fc.nat(5000), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(lines, fc.nat(40_000), (hours, rate) => {
        const weights = hours.map(bookHundredths);
        const sum = bookHundredths(hours.reduce((added, each) => added + each, 0));
        const { totalCents, parts } = labourOfClass(sum, cents(rate), weights);
        expect(parts.reduce<number>((added, part) => added + part, 0)).toBe(totalCents);
        expect(totalCents).toBe(labourCents(sum, cents(rate)));
        parts.forEach((part, index) => {
          expect(Math.abs(part - ((hours[index] ?? 0) * rate) / 100)).toBeLessThan(1.5);
        });
      }),
      { numRuns: 1000 },
    );
  });
});
