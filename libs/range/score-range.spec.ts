import { cents } from '#libs/kernel';
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
});
