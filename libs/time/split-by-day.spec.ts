import fc from 'fast-check';
import { DateTime } from 'luxon';
import type { Interval } from './interval.js';
import { interval } from './interval.js';
import { splitByDay } from './split-by-day.js';

const span = (start: string, end: string): Interval => {
  const result = interval(start, end);
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const split = (given: Interval, zone: string) => {
  const result = splitByDay(given, zone);
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const hoursByDay = (given: Interval, zone: string) =>
  split(given, zone).map((piece) => [piece.date, (piece.interval.end - piece.interval.start) / 3_600_000]);

describe('splitByDay', () => {
  it('cuts a night shift at midnight of the shop, not of Greenwich', () => {
    const shift = span('2026-06-01T22:00:00-05:00', '2026-06-02T06:30:00-05:00');
    expect(hoursByDay(shift, 'America/Chicago')).toEqual([
      ['2026-06-01', 2],
      ['2026-06-02', 6.5],
    ]);
  });

  // Dates of the changes: IANA time zone database.
  it.each([
    ['America/New_York', '2026-03-08T00:00:00-05:00', '2026-03-09T00:00:00-04:00', [['2026-03-08', 23]]],
    ['America/New_York', '2026-11-01T00:00:00-04:00', '2026-11-02T00:00:00-05:00', [['2026-11-01', 25]]],
    // Clocks that go forward at midnight: the day starts at 01:00.
    [
      'America/Santiago',
      '2026-09-05T12:00:00-04:00',
      '2026-09-06T12:00:00-03:00',
      [
        ['2026-09-05', 12],
        ['2026-09-06', 11],
      ],
    ],
    // Clocks that go back to midnight: the day has two of them, and starts at the first.
    [
      'America/Havana',
      '2026-10-31T12:00:00-04:00',
      '2026-11-01T12:00:00-05:00',
      [
        ['2026-10-31', 12],
        ['2026-11-01', 13],
      ],
    ],
    // Half an hour, and the day that Samoa left out.
    ['Australia/Lord_Howe', '2026-04-05T00:00:00+11:00', '2026-04-06T00:00:00+10:30', [['2026-04-05', 24.5]]],
    [
      'Pacific/Apia',
      '2011-12-29T12:00:00-10:00',
      '2011-12-31T12:00:00+14:00',
      [
        ['2011-12-29', 12],
        ['2011-12-31', 12],
      ],
    ],
  ])('in %s from %s to %s', (zone, start, end, days) => {
    expect(hoursByDay(span(start, end), zone)).toEqual(days);
  });

  it('keeps the total across any clock change; pieces meet, and each lies in its own day', () => {
    const zones = [
      'America/New_York',
      'Europe/Berlin',
      'America/Santiago',
      'America/Havana',
      'Australia/Lord_Howe',
      'UTC',
    ];
    const start = fc.integer({ min: Date.UTC(2012, 0), max: Date.UTC(2036, 0) });
    fc.assert(
      fc.property(start, fc.nat(5 * 86_400_000), fc.constantFrom(...zones), (from, length, zone) => {
        const pieces = split({ start: from, end: from + length }, zone);
        let at = from;
        for (const { date, interval: piece } of pieces) {
          expect(piece.start).toBe(at);
          expect(piece.end).toBeGreaterThan(piece.start);
          for (const moment of [piece.start, piece.end - 1]) {
            expect(DateTime.fromMillis(moment, { zone }).toISODate()).toBe(date);
          }
          at = piece.end;
        }
        expect(at).toBe(from + length);
        expect(new Set(pieces.map(({ date }) => date)).size).toBe(pieces.length);
      }),
      { numRuns: 1000 },
    );
  });

  it('a clock that once went back over midnight loses no time (St. John\u2019s, 00:01 to 23:01 on 7 November 2010)', () => {
    const evening = span('2010-11-06T23:30:00-02:30', '2010-11-07T01:00:00-03:30');
    expect(hoursByDay(evening, 'America/St_Johns')).toEqual([
      ['2010-11-06', 0.5],
      ['2010-11-07', 2],
    ]);
    // Clocked on during the repeated hour before midnight: the new day had begun.
    const repeated = span('2010-11-06T23:30:00-03:30', '2010-11-07T01:00:00-03:30');
    expect(hoursByDay(repeated, 'America/St_Johns')).toEqual([['2010-11-07', 1.5]]);
  });

  it('no time has no days', () => {
    expect(splitByDay({ start: 5, end: 5 }, 'UTC')).toEqual({ ok: true, value: [] });
  });

  it('refuses an unknown zone, the zone of the machine and an endless span', () => {
    const codes = ['Mars/Olympus', 'local', 'system', ''].map((zone) => {
      const result = splitByDay({ start: 0, end: 1 }, zone);
      return result.ok ? undefined : result.fault.code;
    });
    expect(codes).toEqual(Array<string>(4).fill('zone-unknown'));
    const endless = splitByDay({ start: 0, end: 8e15 }, 'UTC');
    expect(endless.ok ? undefined : endless.fault.code).toBe('interval-too-long');
  });
});
