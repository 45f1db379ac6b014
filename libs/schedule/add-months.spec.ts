import fc from 'fast-check';
import { addMonths } from './add-months.js';

describe('adding months to a date', () => {
  it('keeps the day where the month has it and takes the last day where it has not', () => {
    // By hand from the Gregorian calendar: 2028 is a leap year, 2100 is not.
    expect(addMonths('2030-05-06', 12)).toBe('2031-05-06');
    expect(addMonths('2028-02-29', 12)).toBe('2029-02-28');
    expect(addMonths('2027-02-28', 12)).toBe('2028-02-28');
    expect(addMonths('2031-01-31', 1)).toBe('2031-02-28');
    expect(addMonths('2028-01-31', 1)).toBe('2028-02-29');
    expect(addMonths('2100-01-31', 1)).toBe('2100-02-28');
    expect(addMonths('2030-12-15', 1)).toBe('2031-01-15');
    expect(addMonths('2031-03-31', -1)).toBe('2031-02-28');
  });

  it('always gives a day that exists and never changes the order of two dates', () => {
    const aDay = fc
      .date({ min: new Date('1990-01-01'), max: new Date('2090-12-31'), noInvalidDate: true })
      .map((date) => date.toISOString().slice(0, 10));
    fc.assert(
      fc.property(aDay, aDay, fc.integer({ min: -60, max: 60 }), (one, other, months) => {
        const moved = addMonths(one, months);
        expect(new Date(`${moved}T00:00:00Z`).toISOString().slice(0, 10)).toBe(moved);
        if (one <= other) expect(moved <= addMonths(other, months)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  it('refuses what is not a date', () => {
    expect(() => addMonths('06.05.2031', 1)).toThrow(RangeError);
  });
});
