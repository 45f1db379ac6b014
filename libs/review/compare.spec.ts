import fc from 'fast-check';
import { bookHundredths, cents, seconds } from '#libs/kernel';
import { compareLine } from './compare-line.js';
import type { SoldAndClocked } from './compare-line.js';
import { compareRepairOrder } from './compare-repair-order.js';
import { compareTechnician } from './compare-technician.js';
import { creditBook } from './credit-book.js';
import { ratio } from './ratio.js';
import { effectiveLabourRate, hoursPerRepairOrder } from './shop-figures.js';
import { sumCompared } from './sum-compared.js';

const HOUR = 3600;

const facts = (book: number, clocked: number, labour = 0, parts = 0): SoldAndClocked => ({
  soldHundredths: bookHundredths(book),
  clockedSeconds: seconds(clocked),
  labourCents: cents(labour),
  partsCents: cents(parts),
});

const aLine = fc
  .tuple(fc.nat(2000), fc.nat(40 * HOUR), fc.nat(300_000), fc.nat(300_000))
  .map((numbers) => facts(...numbers));

describe('a line, sold against clocked', () => {
  it('does a one-hour job in 48 minutes at 1.25', () => {
    // AM (am-online.com), 30 July 2004: 125 % means a 1 h job done in 48 min.
    const line = compareLine(facts(100, 48 * 60));
    expect(line).toMatchObject({ soldSeconds: 3600, differenceSeconds: 720 });
    expect(line.soldPerClocked).toEqual({
      label: 'book hours sold ÷ hours clocked on them',
      numerator: 3600,
      denominator: 2880,
      ppm: 1_250_000,
    });
    expect(line.clockedPerSold.ppm).toBe(800_000);
    // calculatorshub.net, flat-rate efficiency: 50 book hours in 40 actual hours are 125 %.
    expect(compareLine(facts(5000, 40 * HOUR)).soldPerClocked.ppm).toBe(1_250_000);
  });

  it('has no ratio where nothing was sold or nothing clocked, instead of zero or infinity', () => {
    expect(compareLine(facts(0, 600)).clockedPerSold.ppm).toBeNull();
    expect(compareLine(facts(0, 600)).soldPerClocked.ppm).toBe(0);
    expect(compareLine(facts(100, 0)).soldPerClocked.ppm).toBeNull();
    expect(compareLine(facts(0, 600)).differenceSeconds).toBe(-600);
  });

  it('compares to the second, because a hundredth of an hour is 36 s', () => {
    expect(compareLine(facts(1, 36)).differenceSeconds).toBe(0);
    expect(compareLine(facts(1, 37)).differenceSeconds).toBe(-1);
  });
});

describe('a repair order, sold against clocked', () => {
  it('is the ratio of totals, not the mean of ratios', () => {
    // 1 h in 0.5 h and 4 h in 6 h: 5 / 6.5 = 0.769231; the mean of 2 and 0.667 would say 1.333 (arithmetic).
    const lines = [facts(100, HOUR / 2), facts(400, 6 * HOUR)];
    expect(compareRepairOrder(lines).soldPerClocked.ppm).toBe(769_231);
  });

  it('is nothing for no lines', () => {
    const none = compareRepairOrder([]);
    expect(none).toMatchObject({ soldHundredths: 0, clockedSeconds: 0, differenceSeconds: 0 });
    expect(none.clockedPerSold.ppm).toBeNull();
  });

  it('adds up: the sum of the lines is the sum of the orders, however they are grouped', () => {
    fc.assert(
      fc.property(fc.array(fc.array(aLine, { maxLength: 5 }), { maxLength: 6 }), (orders) => {
        const byLine = compareRepairOrder(orders.flat());
        const byOrder = compareRepairOrder(orders.map(sumCompared));
        expect(byOrder).toEqual(byLine);
        const differences = orders.map((lines) => compareRepairOrder(lines).differenceSeconds);
        expect(differences.reduce((sum, one) => sum + one, 0)).toBe(byLine.differenceSeconds);
      }),
      { numRuns: 1000 },
    );
  });

  it('lies between its worst and its best line', () => {
    fc.assert(
      fc.property(fc.array(aLine, { minLength: 1, maxLength: 6 }), (lines) => {
        const ratios = lines.map((line) => compareLine(line).soldPerClocked.ppm);
        const whole = compareRepairOrder(lines).soldPerClocked.ppm;
        if (whole === null || ratios.includes(null)) return;
        const known = ratios.map(Number);
        expect(whole).toBeGreaterThanOrEqual(Math.min(...known));
        expect(whole).toBeLessThanOrEqual(Math.max(...known));
      }),
      { numRuns: 1000 },
    );
  });
});

describe('a technician, sold against clocked and attended', () => {
  it('clocks 37 of 40 hours, sells 125 % of them, and so 115.625 % of the attendance', () => {
    // 37 of 40 h = 92.5 % (AM, 30 July 2004, Sewells); times 1.25 = 1.15625 (product of the two). 37 h × 1.25 = 46.25 h.
    const person = compareTechnician([facts(2625, 21 * HOUR), facts(2000, 16 * HOUR)], seconds(40 * HOUR));
    expect(person.clockedPerAttended).toMatchObject({
      label: 'hours clocked on jobs ÷ hours attended',
      ppm: 925_000,
    });
    expect(person.soldPerClocked.ppm).toBe(1_250_000);
    expect(person.soldPerAttended).toMatchObject({
      label: 'book hours sold ÷ hours attended',
      ppm: 1_156_250,
    });
  });

  it('names the larger sample the same way: 957 of 1,040 hours', () => {
    // 360growth glossary, which prints 92 % and calls it by another word.
    expect(compareTechnician([facts(0, 957 * HOUR)], seconds(1040 * HOUR)).clockedPerAttended.ppm).toBe(
      920_192,
    );
  });

  it('has no ratio to an attendance of nothing', () => {
    const person = compareTechnician([facts(100, HOUR)], seconds(0));
    expect([person.clockedPerAttended.ppm, person.soldPerAttended.ppm]).toEqual([null, null]);
  });

  it('is credited with book hours by the time on the line, and all technicians together with all of them', () => {
    const clocked = new Map([
      ['ida', seconds(5400)],
      ['sam', seconds(1800)],
      ['kim', seconds(0)],
    ]);
    // 2.5 h over 1.5 h and 0.5 h: 1.875 and 0.625; the tie goes to the first name.
    expect([...creditBook(bookHundredths(250), clocked)]).toEqual([
      ['ida', 188],
      ['sam', 62],
    ]);
    expect(creditBook(bookHundredths(250), new Map([['kim', seconds(0)]])).size).toBe(0);
    fc.assert(
      fc.property(
        fc.nat(5000),
        fc.array(fc.integer({ min: 1, max: 9000 }), { minLength: 1 }),
        (book, times) => {
          const people = new Map(times.map((time, at) => [`person ${at}`, seconds(time)]));
          const credits = [...creditBook(bookHundredths(book), people).values()];
          expect(credits.reduce<number>((sum, one) => sum + one, 0)).toBe(book);
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe('figures of the shop', () => {
  it('are labour money per book hour and book hours per order', () => {
    // 18,562.50 of labour over 165 h = 112.50; 165 h over 66 orders = 2.5 (definitions of the trade).
    expect(effectiveLabourRate(cents(1_856_250), bookHundredths(16_500)).centsPerHour).toBe(11_250);
    expect(effectiveLabourRate(cents(100), bookHundredths(0)).centsPerHour).toBeNull();
    expect(hoursPerRepairOrder(bookHundredths(16_500), 66).ppm).toBe(2_500_000);
    expect(hoursPerRepairOrder(bookHundredths(0), 0).ppm).toBeNull();
  });

  it('refuse totals that cannot be', () => {
    expect(() => ratio('a', -1, 'b', 1)).toThrow(RangeError);
    expect(() => ratio('a', 0.5, 'b', 1)).toThrow(RangeError);
  });
});
