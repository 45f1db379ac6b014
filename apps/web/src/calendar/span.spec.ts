import { onStrip, spanOf, spanWords } from './span.js';

const ZONE = 'America/New_York';
const TODAY = '2026-03-11';
const words = (startsAt: string, endsAt: string | null, endedAt: string | null = null): string =>
  spanWords(spanOf({ startsAt, endsAt, endedAt }), ZONE, TODAY);

describe('a stretch of time in words', () => {
  it.each([
    ['2026-03-17T00:00:00-04:00', '2026-03-18T00:00:00-04:00', 'Tuesday 17 March'],
    ['2026-03-17T00:00:00-04:00', '2026-03-20T00:00:00-04:00', 'Tuesday 17 March to Thursday 19 March'],
    ['2026-03-17T08:00:00-04:00', '2026-03-17T12:00:00-04:00', 'Tuesday 17 March, 08:00 to 12:00'],
    ['2026-03-17T20:00:00-04:00', '2026-03-18T00:00:00-04:00', 'Tuesday 17 March, 20:00 to 24:00'],
    [
      '2026-03-17T08:00:00-04:00',
      '2026-03-18T12:00:00-04:00',
      'Tuesday 17 March, 08:00 to Wednesday 18 March, 12:00',
    ],
    [
      '2026-12-31T00:00:00-05:00',
      '2027-01-02T00:00:00-05:00',
      'Thursday 31 December to Friday 1 January 2027',
    ],
    // Sunday 8 March 2026 is an hour shorter in New York.
    ['2026-03-08T00:00:00-05:00', '2026-03-09T00:00:00-04:00', 'Sunday 8 March'],
    ['2026-03-11T10:30:00-04:00', null, 'From Wednesday 11 March, 10:30; nobody knows until when'],
    ['2026-03-16T00:00:00-04:00', null, 'From Monday 16 March; nobody knows until when'],
  ])('from %s to %s', (from, to, said) => expect(words(from, to)).toBe(said));

  it('ends when it was put back, whatever was expected', () => {
    const back = '2026-03-17T09:00:00-04:00';
    expect(words('2026-03-17T08:00:00-04:00', null, back)).toBe('Tuesday 17 March, 08:00 to 09:00');
    expect(words('2026-03-17T08:00:00-04:00', '2026-03-19T08:00:00-04:00', back)).toBe(
      'Tuesday 17 March, 08:00 to 09:00',
    );
  });
});

describe('a stretch of time on a strip', () => {
  const strip = { from: 100, to: 200 };
  it.each([
    [
      { from: 120, to: 150 },
      { left: 20, width: 30 },
    ],
    [
      { from: 50, to: 150 },
      { left: 0, width: 50 },
    ],
    [
      { from: 150, to: null },
      { left: 50, width: 50 },
    ],
    [{ from: 0, to: 100 }, undefined],
    [{ from: 200, to: null }, undefined],
  ])('%j lies at %j', (span, place) => expect(onStrip(span, strip)).toEqual(place));
});
