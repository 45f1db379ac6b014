import fc from 'fast-check';
import type { Interval } from '#libs/time';
import { wallDays, type WallDay } from './wall-days.js';
import { workingPeriods, type WeeklyShift, type WorkingTimes } from './working-periods.js';

const DAY_MS = 86_400_000;
const span = (start: string, end: string): Interval => ({ start: Date.parse(start), end: Date.parse(end) });
const daysOf = (between: Interval, zone: string): WallDay[] => {
  const days = wallDays(between, zone);
  if (!days.ok) throw new Error(days.fault.detail);
  return days.value;
};
const worked = (times: WorkingTimes, between: Interval, zone: string): Interval[] =>
  workingPeriods(times, between, daysOf(between, zone));
const minutes = (periods: readonly Interval[]): number =>
  periods.reduce((sum, { start, end }) => sum + (end - start) / 60_000, 0);
const told = (periods: readonly Interval[]): string[] =>
  periods.map(({ start, end }) => `${new Date(start).toISOString()}/${new Date(end).toISOString()}`);
const everyDay = (fromMinute: number, toMinute: number, pause?: readonly [number, number]): WeeklyShift[] =>
  [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({
    weekday,
    fromMinute,
    toMinute,
    breakFromMinute: pause?.[0] ?? null,
    breakToMinute: pause?.[1] ?? null,
  }));

describe('an ordinary week', () => {
  const week = span('2026-05-04T00:00:00-04:00', '2026-05-11T00:00:00-04:00');
  const shifts = everyDay(480, 1020, [720, 750]).slice(0, 5);

  it('is the shifts without their breaks', () => {
    const periods = worked({ shifts }, week, 'America/New_York');
    expect(told(periods).slice(0, 2)).toEqual([
      '2026-05-04T12:00:00.000Z/2026-05-04T16:00:00.000Z',
      '2026-05-04T16:30:00.000Z/2026-05-04T21:00:00.000Z',
    ]);
    expect(minutes(periods)).toBe(5 * 510);
  });

  it('has no work on a closed day, and none while the person is away', () => {
    const closedDays = new Set(['2026-05-06']);
    const absences = [span('2026-05-07T14:00:00-04:00', '2026-05-08T09:00:00-04:00')];
    const periods = worked({ shifts, closedDays, absences }, week, 'America/New_York');
    expect(told(periods).slice(4)).toEqual([
      '2026-05-07T12:00:00.000Z/2026-05-07T16:00:00.000Z',
      '2026-05-07T16:30:00.000Z/2026-05-07T18:00:00.000Z',
      '2026-05-08T13:00:00.000Z/2026-05-08T16:00:00.000Z',
      '2026-05-08T16:30:00.000Z/2026-05-08T21:00:00.000Z',
    ]);
  });

  it('gives way to the hours of one day, a Saturday or a holiday that is worked among them', () => {
    const times: WorkingTimes = {
      shifts,
      closedDays: new Set(['2026-05-06', '2026-05-07']),
      otherHours: [
        { date: '2026-05-06', hours: [{ fromMinute: 540, toMinute: 600 }] },
        { date: '2026-05-08', hours: [] },
        { date: '2026-05-09', hours: [{ fromMinute: 480, toMinute: 720 }] },
      ],
    };
    expect(told(worked(times, week, 'America/New_York')).slice(4)).toEqual([
      '2026-05-06T13:00:00.000Z/2026-05-06T14:00:00.000Z',
      '2026-05-09T12:00:00.000Z/2026-05-09T16:00:00.000Z',
    ]);
  });

  it('is cut at the edges that were asked for, also in the middle of a shift or of a break', () => {
    const asked = span('2026-05-04T12:10:00-04:00', '2026-05-05T08:05:00-04:00');
    expect(told(worked({ shifts }, asked, 'America/New_York'))).toEqual([
      '2026-05-04T16:30:00.000Z/2026-05-04T21:00:00.000Z',
      '2026-05-05T12:00:00.000Z/2026-05-05T12:05:00.000Z',
    ]);
  });

  it('is every moment of an open day where nobody has said when the person works, and none with no shift', () => {
    const closedDays = new Set(['2026-05-06']);
    expect(minutes(worked({ shifts: null, closedDays }, week, 'America/New_York'))).toBe(6 * 1440);
    expect(worked({ shifts: [] }, week, 'America/New_York')).toEqual([]);
  });

  it('joins what goes on over midnight', () => {
    const periods = worked({ shifts: everyDay(0, 1440) }, week, 'America/New_York');
    expect(periods).toEqual([week]);
  });
});

/**
 * The changes by the rules of the IANA time zone database (files europe, northamerica, australasia), reckoned here by
 * hand: EU last Sunday of March and October 1:00u; US Sun>=8 of March and Sun>=1 of November, 2:00 by the wall; LH
 * (Lord Howe, half an hour) Sun>=1 of October and April, 2:00 by the wall.
 */
const sunday = (year: number, month: number, from: number): number => {
  const day = new Date(Date.UTC(year, month - 1, from)).getUTCDay();
  return Date.UTC(year, month - 1, from + ((7 - day) % 7));
};
const HOUR = 3_600_000;
const CHANGES = [
  {
    zone: 'Europe/London',
    forward: (year: number) => sunday(year, 3, 25) + HOUR,
    back: (year: number) => sunday(year, 10, 25) + HOUR,
    standard: 0,
    jump: 60,
    shows: 60,
  },
  {
    zone: 'America/New_York',
    forward: (year: number) => sunday(year, 3, 8) + 7 * HOUR,
    back: (year: number) => sunday(year, 11, 1) + 6 * HOUR,
    standard: -300,
    jump: 60,
    shows: 120,
  },
  {
    zone: 'Australia/Lord_Howe',
    forward: (year: number) => sunday(year, 10, 1) - 8.5 * HOUR,
    back: (year: number) => sunday(year, 4, 1) - 9 * HOUR,
    standard: 630,
    jump: 30,
    shows: 120,
  },
] as const;

describe.each(CHANGES)('the nights on which the clocks change in $zone', (change) => {
  const { zone, jump, standard } = change;
  const dayOf = (instant: number): WallDay => {
    const found = daysOf({ start: instant - DAY_MS, end: instant + DAY_MS }, zone).find(
      (day) => day.at(0) <= instant && instant < day.at(1440),
    );
    if (!found) throw new Error('every moment has its day');
    return found;
  };
  const years = Array.from({ length: 12 }, (_, at) => 2024 + at);

  it.each(years)('%i: the day that goes forward is short, and its missing times are the jump', (year) => {
    const instant = change.forward(year);
    const day = dayOf(instant);
    const missing = change.shows;
    expect(day.weekday).toBe(7);
    expect(day.at(1440) - day.at(0)).toBe(DAY_MS - jump * 60_000);
    // Just before the jump the wall is on standard time; at it, it shows the jump later.
    expect(day.at(missing - 1)).toBe(instant - 60_000);
    for (const minute of [missing, missing + 1, missing + jump - 1, missing + jump])
      expect(day.at(minute)).toBe(instant);
    expect(day.at(missing + jump + 1)).toBe(instant + 60_000);
    expect(day.at(0)).toBe(Date.parse(`${day.date}T00:00:00Z`) - standard * 60_000);
  });

  it.each(years)('%i: the day that goes back is long, and of its double times the first counts', (year) => {
    const instant = change.back(year);
    const day = dayOf(instant);
    // Going back the wall reads `shows` + jump in Europe (2:00 to 1:00) and `shows` elsewhere (2:00 to 1:00, 1:30).
    const top = zone === 'Europe/London' ? change.shows + jump : change.shows;
    expect(day.weekday).toBe(7);
    expect(day.at(1440) - day.at(0)).toBe(DAY_MS + jump * 60_000);
    expect(day.at(top - 1)).toBe(instant - 60_000);
    expect(day.at(top - jump)).toBe(instant - jump * 60_000);
    expect(day.at(top)).toBe(instant + jump * 60_000);
    expect(day.at(0)).toBe(Date.parse(`${day.date}T00:00:00Z`) - (standard + jump) * 60_000);
  });

  it('a shift over the change is longer or shorter by exactly the change; a shift beside it is not', () => {
    const shift = (from: number, to: number, instant: number): number => {
      const { date } = dayOf(instant);
      const between = { start: instant - 2 * DAY_MS, end: instant + 2 * DAY_MS };
      const otherHours = [{ date, hours: [{ fromMinute: from, toMinute: to }] }];
      return minutes(worked({ shifts: [], otherHours }, between, zone));
    };
    for (const year of years) {
      expect(shift(0, 480, change.forward(year))).toBe(480 - jump);
      expect(shift(0, 480, change.back(year))).toBe(480 + jump);
      for (const instant of [change.forward(year), change.back(year)])
        expect(shift(480, 1020, instant)).toBe(540);
    }
  });

  it('two shifts that meet by the wall meet in time, wherever on such a night', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...years),
        fc.boolean(),
        fc.array(fc.nat(1440), { minLength: 3, maxLength: 6 }),
        (year, isForward, some) => {
          const day = dayOf(isForward ? change.forward(year) : change.back(year));
          const edges = [...some].sort((a, b) => a - b);
          const lengths = edges.slice(1).map((to, at) => day.at(to) - day.at(edges[at] ?? 0));
          expect(Math.min(...lengths)).toBeGreaterThanOrEqual(0);
          const whole = day.at(edges.at(-1) ?? 0) - day.at(edges[0] ?? 0);
          expect(lengths.reduce((sum, length) => sum + length, 0)).toBe(whole);
        },
      ),
    );
  });
});

describe('days that are odder still', () => {
  it('Samoa left out 30 December 2011: nobody worked on it', () => {
    const between = span('2011-12-29T00:00:00-10:00', '2012-01-01T00:00:00+14:00');
    const days = daysOf(between, 'Pacific/Apia');
    expect(days.map(({ date }) => date)).toEqual(['2011-12-29', '2011-12-31']);
    expect(minutes(worked({ shifts: everyDay(480, 1020) }, between, 'Pacific/Apia'))).toBe(2 * 540);
  });

  it('in Santiago the day begins at one when the clocks go forward at midnight', () => {
    const between = span('2026-09-06T01:00:00-03:00', '2026-09-07T00:00:00-03:00');
    expect(minutes(worked({ shifts: everyDay(0, 1440) }, between, 'America/Santiago'))).toBe(23 * 60);
    expect(daysOf(between, 'America/Santiago').map(({ date }) => date)).toEqual(['2026-09-06']);
  });

  it('refuses an unknown zone, the zone of the machine and an endless span', () => {
    const codes = ['Mars/Olympus', 'local', ''].map((zone) => {
      const days = wallDays({ start: 0, end: 1 }, zone);
      return days.ok ? undefined : days.fault.code;
    });
    expect(codes).toEqual(Array<string>(3).fill('zone-unknown'));
    const endless = wallDays({ start: 0, end: 8e15 }, 'UTC');
    expect(endless.ok ? undefined : endless.fault.code).toBe('interval-too-long');
  });
});

describe('laws of working periods', () => {
  const zones = ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'America/Havana', 'UTC'];
  const shift = fc
    .tuple(fc.integer({ min: 1, max: 7 }), fc.uniqueArray(fc.nat(1440), { minLength: 4, maxLength: 4 }))
    .map(([weekday, some]): WeeklyShift => {
      const [from = 0, pauseFrom = 0, pauseTo = 0, to = 0] = [...some].sort((a, b) => a - b);
      return {
        weekday,
        fromMinute: from,
        toMinute: to,
        breakFromMinute: pauseFrom,
        breakToMinute: pauseTo,
      };
    });
  const anything = fc
    .record({
      zone: fc.constantFrom(...zones),
      start: fc.integer({ min: Date.UTC(2024, 0), max: Date.UTC(2032, 0) }),
      length: fc.nat(20 * DAY_MS),
      shifts: fc.option(fc.array(shift, { maxLength: 7 })),
      closed: fc.array(fc.nat(20), { maxLength: 3 }),
      away: fc.array(fc.tuple(fc.nat(20 * DAY_MS), fc.nat(3 * DAY_MS)), { maxLength: 4 }),
    })
    .map(({ zone, start, length, shifts, closed, away }) => {
      const between = { start, end: start + length };
      const days = daysOf(between, zone);
      const closedDays = new Set(closed.flatMap((at) => days[at]?.date ?? []));
      const absences = away.map(([from, long]) => ({ start: start + from, end: start + from + long }));
      return { zone, between, days, times: { shifts, closedDays, absences } };
    });

  it('they are in order, apart, not empty and inside what was asked', () => {
    fc.assert(
      fc.property(anything, ({ times, between, days }) => {
        let last = Number.NEGATIVE_INFINITY;
        for (const { start, end } of workingPeriods(times, between, days)) {
          expect(start).toBeGreaterThan(last);
          expect(end).toBeGreaterThan(start);
          expect(start).toBeGreaterThanOrEqual(between.start);
          expect(end).toBeLessThanOrEqual(between.end);
          last = end;
        }
      }),
      { numRuns: 500 },
    );
  });

  it('removing an absence or opening a closed day never removes time', () => {
    const inside = (some: readonly Interval[], whole: readonly Interval[]): boolean =>
      some.every((one) => whole.some(({ start, end }) => start <= one.start && one.end <= end));
    fc.assert(
      fc.property(anything, ({ times, between, days }) => {
        const periods = workingPeriods(times, between, days);
        const present = { ...times, absences: times.absences.slice(1) };
        expect(inside(periods, workingPeriods(present, between, days))).toBe(true);
        const open = { ...times, closedDays: new Set([...times.closedDays].slice(1)) };
        expect(inside(periods, workingPeriods(open, between, days))).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it('asking for a part gives that part of the whole', () => {
    fc.assert(
      fc.property(anything, fc.nat(1000), ({ times, between, days, zone }, share) => {
        const middle = between.start + Math.floor(((between.end - between.start) * share) / 1000);
        const halves = [
          { start: between.start, end: middle },
          { start: middle, end: between.end },
        ].map((half) => minutes(worked(times, half, zone)));
        expect((halves[0] ?? 0) + (halves[1] ?? 0)).toBeCloseTo(
          minutes(workingPeriods(times, between, days)),
          6,
        );
      }),
      { numRuns: 500 },
    );
  });

  it('an ordinary day is its shift less its break; on others it differs by what the clocks did within it', () => {
    fc.assert(
      fc.property(
        shift,
        fc.integer({ min: 0, max: 365 * 8 }),
        fc.constantFrom(...zones),
        (one, after, zone) => {
          const noon = Date.UTC(2024, 0, 1 + after, 12);
          const day = daysOf({ start: noon - DAY_MS, end: noon + DAY_MS }, zone)[1];
          if (!day) throw new Error('three days have a middle');
          const between = { start: day.at(0), end: day.at(1440) };
          const pause = (one.breakToMinute ?? 0) - (one.breakFromMinute ?? 0);
          const byTheWall = one.toMinute - one.fromMinute - pause;
          const time = minutes(
            workingPeriods({ shifts: [{ ...one, weekday: day.weekday }] }, between, [day]),
          );
          const longer = (between.end - between.start) / 60_000 - 1440;
          if (longer === 0) expect(time).toBe(byTheWall);
          else expect(Math.abs(time - byTheWall)).toBeLessThanOrEqual(Math.abs(longer));
        },
      ),
      { numRuns: 1000 },
    );
  });
});
