import { cents, ppm } from '#libs/kernel';
import { coverage } from './coverage.js';
import { scoreRange } from './score-range.js';

const RANGE = {
  p10Cents: cents(10_000),
  p50Cents: cents(12_000),
  p80Cents: cents(14_000),
  p95Cents: cents(17_000),
};

describe('after the job', () => {
  it.each([
    // Losses by hand, e.g. 12 500: (2500·10 + 500·50 + 1500·20 + 4500·5) / 400.
    [12_500, true, 'p50-to-p80', 0, 500, 256],
    [14_000, true, 'p50-to-p80', 0, 2000, 388],
    [14_001, false, 'p80-to-p95', 1, 2001, 388],
    [10_000, true, 'to-p10', 0, -2000, 538],
    [20_000, false, 'above-p95', 6000, 8000, 3163],
  ])('a total of %i against its range', (actual, p80Held, band, overCents, fromP50Cents, lossCents) => {
    expect(scoreRange(RANGE, cents(actual))).toEqual({
      actualCents: actual,
      p80Held,
      band,
      overCents,
      fromP50Cents,
      lossCents,
    });
  });

  it('no other P80 than the true one has a smaller loss over many jobs', () => {
    const jobs = Array.from({ length: 1001 }, (_, at) => cents(10_000 + at * 10));
    const loss = (p80: number): number =>
      jobs.reduce((sum, actual) => {
        return sum + scoreRange({ ...RANGE, p80Cents: cents(p80) }, actual).lossCents;
      }, 0);
    expect(loss(18_000)).toBeLessThan(loss(17_000));
    expect(loss(18_000)).toBeLessThan(loss(19_000));
  });

  it('says how often the P80 held, with n and an interval', () => {
    const pairs = Array.from({ length: 20 }, (_, at) => ({
      range: RANGE,
      actualCents: cents(at < 17 ? 14_000 : 14_001),
    }));
    // Wilson, 17 of 20 at 95 percent: 0.6396 to 0.9476 (NIST/SEMATECH e-Handbook 7.2.4.1, worked by hand).
    const seen = coverage(pairs);
    expect(seen).toMatchObject({ n: 20, held: 17, heldPpm: ppm(850_000) });
    expect((seen.interval?.loPpm ?? 0) / 1_000_000).toBeCloseTo(0.6396, 4);
    expect((seen.interval?.hiPpm ?? 0) / 1_000_000).toBeCloseTo(0.9476, 4);
  });

  it('says nothing of nothing', () => {
    expect(coverage([])).toEqual({ n: 0, held: 0, heldPpm: null, interval: null });
  });
});
