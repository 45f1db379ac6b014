import fc from 'fast-check';
import { demoShifts } from './demo-floor.js';

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7];

describe('the hours of the demonstration shop', () => {
  it('are the usual ones on a weekday forenoon', () => {
    const shifts = demoShifts({ weekday: 2, minute: 12 * 60 + 10 });
    expect(shifts.map(({ weekday }) => weekday)).toEqual([1, 2, 3, 4, 5]);
    expect(shifts[0]).toEqual({
      weekday: 1,
      fromMinute: 450,
      toMinute: 990,
      breakFromMinute: 720,
      breakToMinute: 750,
    });
  });

  it('hold the present, what began before it and the next day, whenever the shop is made', () => {
    fc.assert(
      fc.property(fc.constantFrom(...WEEKDAYS), fc.integer({ min: 0, max: 1439 }), (weekday, minute) => {
        const shifts = demoShifts({ weekday, minute });
        const today = shifts.filter((shift) => shift.weekday === weekday);
        expect(today).toHaveLength(1);
        expect(today[0]?.fromMinute).toBeLessThanOrEqual(Math.max(0, minute - 300));
        expect(today[0]?.toMinute).toBeGreaterThanOrEqual(Math.min(1440, minute + 360));
        expect(today[0]?.toMinute).toBeLessThanOrEqual(1440);
        expect(shifts.some((shift) => shift.weekday === (weekday % 7) + 1)).toBe(true);
        expect(new Set(shifts.map((shift) => shift.weekday)).size).toBe(shifts.length);
      }),
    );
  });
});
