import { DateTime } from 'luxon';
import { instantOf } from './instant-of.js';
import { clockTime, dayOf, dayWords, isDay, shiftDay } from './zone-time.js';

// Checked against luxon, an independent implementation over the same zone data.
const zones = [
  'Europe/Vienna',
  'America/New_York',
  'Asia/Kolkata',
  'Australia/Lord_Howe',
  'Pacific/Auckland',
  'UTC',
];
const days = [
  '2031-01-15',
  '2031-03-09',
  '2031-03-30',
  '2031-04-06',
  '2031-07-01',
  '2031-10-26',
  '2031-11-02',
];

describe('the wall clock of the shop', () => {
  it.each(zones)(
    'reads in %s as luxon reads it, through every hour of days with and without a change',
    (zone) => {
      for (const day of days) {
        for (let hour = -3; hour < 30; hour += 1) {
          const at = Date.parse(`${day}T00:00:00Z`) + hour * 3_600_000 + 17 * 60_000;
          const expected = DateTime.fromMillis(at, { zone });
          expect(clockTime(at, zone)).toBe(expected.toFormat('HH:mm'));
          expect(dayOf(at, zone)).toBe(expected.toFormat('yyyy-MM-dd'));
        }
      }
    },
  );

  it.each(zones)('turns every quarter-hour that exists in %s into an instant that reads the same', (zone) => {
    for (const day of days) {
      for (let minute = 0; minute < 1440; minute += 15) {
        const time = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
        const at = instantOf(day, time, zone);
        const expected = DateTime.fromISO(`${day}T${time}`, { zone });
        if (expected.toFormat('HH:mm') === time) expect(clockTime(at, zone)).toBe(time);
        else expect(at).toBe(expected.toMillis());
      }
    }
  });

  it('moves a time that the spring change skips forward, and takes the first of a time that happens twice', () => {
    expect(new Date(instantOf('2031-03-30', '02:30', 'Europe/Vienna')).toISOString()).toBe(
      '2031-03-30T01:30:00.000Z',
    );
    expect(new Date(instantOf('2031-10-26', '02:30', 'Europe/Vienna')).toISOString()).toBe(
      '2031-10-26T00:30:00.000Z',
    );
  });

  it('walks over month and leap-day borders and names the day', () => {
    expect(shiftDay('2032-02-28', 1)).toBe('2032-02-29');
    expect(shiftDay('2031-01-01', -1)).toBe('2030-12-31');
    expect(dayWords('2031-03-12', '2031-05-01')).toBe('Wednesday 12 March');
    expect(dayWords('2030-12-31', '2031-05-01')).toBe('Tuesday 31 December 2030');
    expect([isDay('2031-03-12'), isDay('2031-13-12'), isDay('tomorrow'), isDay(null)]).toEqual([
      true,
      false,
      false,
      false,
    ]);
  });
});
