import fc from 'fast-check';
import { interval, type Interval } from './interval.js';
import { merge } from './merge.js';
import { overlaps } from './overlaps.js';
import { subtract } from './subtract.js';
import { totalSeconds } from './total-seconds.js';

const span = (start: number, end: number): Interval => ({ start, end });
const someSpan = fc.tuple(fc.nat(60), fc.nat(20)).map(([start, length]) => span(start, start + length));
const spans = fc.array(someSpan, { maxLength: 8 });

/** The moments that a list covers, one by one: a second way to say what the functions compute. */
const moments = (list: readonly Interval[]) => {
  const covered = new Set<number>();
  for (const { start, end } of list) for (let at = start; at < end; at++) covered.add(at);
  return covered;
};

describe('interval', () => {
  it('takes milliseconds and RFC 3339 instants', () => {
    expect(interval(0, 5)).toEqual({ ok: true, value: span(0, 5) });
    expect(interval('1970-01-01T00:00:01Z', '1969-12-31T19:00:02.5-05:00')).toEqual({
      ok: true,
      value: span(1000, 2500),
    });
    expect(interval(7, 7)).toEqual({ ok: true, value: span(7, 7) });
  });

  it('refuses one that runs backwards', () => {
    const reversed = interval('2026-03-02T17:00:00Z', '2026-03-02T08:00:00Z');
    expect(reversed.ok ? undefined : reversed.fault.code).toBe('interval-reversed');
  });

  it.each([
    '2026-03-02T08:00:00',
    '2026-02-30T08:00:00Z',
    '2026-03-02',
    '08:00',
    '',
    'now',
    Number.NaN,
    0.5,
    Number.POSITIVE_INFINITY,
    8.64e15 + 1,
  ])('refuses %j as an instant', (bad) => {
    for (const result of [interval(bad, 0), interval(0, bad)]) {
      expect(result.ok ? undefined : result.fault.code).toBe('instant-invalid');
    }
  });

  it('a reversed one that was made by hand is a bug everywhere', () => {
    const bad = span(2, 1);
    const good = span(0, 3);
    expect(() => overlaps(bad, good)).toThrow(RangeError);
    expect(() => overlaps(good, bad)).toThrow(RangeError);
    expect(() => merge([good, bad])).toThrow(RangeError);
    expect(() => subtract(bad, [])).toThrow(RangeError);
    expect(() => subtract(good, [bad])).toThrow(RangeError);
    expect(() => totalSeconds([bad])).toThrow(RangeError);
    expect(() => overlaps(span(Number.NaN, 1), good)).toThrow(RangeError);
  });
});

describe('half-open arithmetic', () => {
  it('back to back is no overlap', () => {
    expect(overlaps(span(0, 5), span(5, 9))).toBe(false);
    expect(overlaps(span(0, 5), span(4, 9))).toBe(true);
    expect(overlaps(span(0, 5), span(2, 2))).toBe(false);
  });

  it('two overlap exactly when they share a moment', () => {
    fc.assert(
      fc.property(someSpan, someSpan, (a, b) => {
        const shared = [...moments([a])].some((at) => moments([b]).has(at));
        expect(overlaps(a, b)).toBe(shared);
        expect(overlaps(b, a)).toBe(shared);
      }),
      { numRuns: 1000 },
    );
  });

  it('merging keeps every moment once, in order and with gaps between', () => {
    fc.assert(
      fc.property(spans, (list) => {
        const merged = merge(list);
        expect(moments(merged)).toEqual(moments(list));
        merged.forEach(({ start, end }, index) => {
          expect(end).toBeGreaterThan(start);
          if (index > 0) expect(start).toBeGreaterThan(merged[index - 1]?.end ?? Number.NaN);
        });
        expect(merge(merged)).toEqual(merged);
      }),
      { numRuns: 1000 },
    );
  });

  it('subtracting leaves the moments that no hole covers, and nothing is lost or counted twice', () => {
    fc.assert(
      fc.property(someSpan, spans, (whole, holes) => {
        const left = subtract(whole, holes);
        const covered = moments(holes);
        expect(moments(left)).toEqual(new Set([...moments([whole])].filter((at) => !covered.has(at))));
        expect(merge(left)).toEqual(left);
      }),
      { numRuns: 1000 },
    );
  });

  it('a shift less its lunch', () => {
    expect(subtract(span(0, 100), [span(40, 50), span(90, 120), span(-5, 0)])).toEqual([
      span(0, 40),
      span(50, 90),
    ]);
  });
});

describe('totalSeconds', () => {
  it('adds up first and rounds once, a half up', () => {
    expect(totalSeconds([span(0, 400), span(1000, 1400), span(2000, 2400)])).toBe(1);
    expect(totalSeconds([span(0, 500)])).toBe(1);
    expect(totalSeconds([span(0, 499)])).toBe(0);
    expect(totalSeconds([])).toBe(0);
  });

  it('counts shared time twice unless it is merged', () => {
    const list = [span(0, 10_000), span(5_000, 15_000)];
    expect(totalSeconds(list)).toBe(20);
    expect(totalSeconds(merge(list))).toBe(15);
  });
});
