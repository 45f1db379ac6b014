import { seconds } from '#libs/kernel';
import fc from 'fast-check';
import { minutesToHours } from './minutes-to-hours.js';
import { PUNCH_INCREMENTS, roundPunch } from './round-punch.js';
import { secondsToHours4 } from './seconds-to-hours4.js';

const rounded = (punch: string, increment: 'five' | 'tenth' | 'quarter') => {
  const result = roundPunch(punch, increment);
  return result.ok ? result.value : result.fault.code;
};

describe('roundPunch', () => {
  // 29 CFR 785.48(b): nearest five minutes, tenth or quarter of an hour; worked by hand, a tie goes up (our choice).
  it.each([
    ['07:52:29', '07:50', '07:54', '07:45'],
    ['07:52:30', '07:55', '07:54', '08:00'],
    ['08:02:29', '08:00', '08:00', '08:00'],
    ['08:02:30', '08:05', '08:00', '08:00'],
    ['08:07:29', '08:05', '08:06', '08:00'],
    ['08:07:30', '08:10', '08:06', '08:15'],
    ['16:53:00', '16:55', '16:54', '17:00'],
    ['17:00:01', '17:00', '17:00', '17:00'],
    ['08:03', '08:05', '08:06', '08:00'],
    ['00:00', '00:00', '00:00', '00:00'],
  ])('%s becomes %s, %s and %s', (punch, five, tenth, quarter) => {
    expect([rounded(punch, 'five'), rounded(punch, 'tenth'), rounded(punch, 'quarter')]).toEqual([
      five,
      tenth,
      quarter,
    ]);
  });

  it('the last minutes of a day go to its end, not back to its beginning', () => {
    expect(rounded('23:57:29', 'five')).toBe('23:55');
    expect(rounded('23:57:30', 'five')).toBe('24:00');
    expect(rounded('23:57:00', 'tenth')).toBe('24:00');
    expect(rounded('23:59:59', 'quarter')).toBe('24:00');
  });

  it('never moves a punch by more than half an increment, and a later punch never comes out earlier', () => {
    const size = { five: 300, tenth: 360, quarter: 900 };
    const text = (at: number) => new Date(at * 1000).toISOString().slice(11, 19);
    const minutes = (given: string) => Number(given.slice(0, 2)) * 60 + Number(given.slice(3));
    fc.assert(
      fc.property(fc.nat(86_398), fc.constantFrom(...PUNCH_INCREMENTS), (at, increment) => {
        const result = minutes(rounded(text(at), increment)) * 60;
        expect(result % size[increment]).toBe(0);
        expect(2 * Math.abs(result - at)).toBeLessThanOrEqual(size[increment]);
        expect(minutes(rounded(text(at + 1), increment)) * 60).toBeGreaterThanOrEqual(result);
      }),
      { numRuns: 1000 },
    );
  });

  it.each(['24:00', '7:52', '07:60', '07:52:60', '07:52:29.5', '07-52', '', ' 07:52', '07:52\n', '-1:00'])(
    'refuses %j',
    (punch) => {
      expect(rounded(punch, 'five')).toBe('punch-invalid');
    },
  );
});

describe('minutesToHours', () => {
  // Arithmetic: n/60 rounded half up to two digits and, from the exact fraction again, to one.
  it.each([
    [0, '0.00', '0.0'],
    [1, '0.02', '0.0'],
    [3, '0.05', '0.1'],
    [7, '0.12', '0.1'],
    [9, '0.15', '0.2'],
    [20, '0.33', '0.3'],
    [29, '0.48', '0.5'],
    [50, '0.83', '0.8'],
    [57, '0.95', '1.0'],
    [2405, '40.08', '40.1'],
    [Number.MAX_SAFE_INTEGER, '150119987579016.52', '150119987579016.5'],
  ])('%i minutes are %s or %s hours', (minutes, hours2, tenths) => {
    expect(minutesToHours(minutes)).toEqual({ ok: true, value: { hours2, tenths } });
  });

  it('sum first, then round: four times seven minutes are 0.5 h, not four times 0.1 h', () => {
    expect(minutesToHours(4 * 7)).toMatchObject({ value: { tenths: '0.5' } });
    expect(minutesToHours(7)).toMatchObject({ value: { tenths: '0.1' } });
  });

  it.each([-1, 0.5, Number.NaN, Number.POSITIVE_INFINITY])('refuses %d', (minutes) => {
    expect(minutesToHours(minutes)).toMatchObject({ ok: false, fault: { code: 'minutes-invalid' } });
  });
});

describe('secondsToHours4', () => {
  // Arithmetic: 36 s are exactly a hundredth of an hour; 1/3600 = 0.00027..., 5/3600 = 0.00138..., 9/3600 = 0.0025.
  it.each([
    [0, '0.0000'],
    [36, '0.0100'],
    [1, '0.0003'],
    [5, '0.0014'],
    [9, '0.0025'],
    [27_000, '7.5000'],
    [-36, '-0.0100'],
  ])('%i s are %s h', (clocked, hours) => {
    expect(secondsToHours4(seconds(clocked))).toBe(hours);
  });
});
