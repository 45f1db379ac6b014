import fc from 'fast-check';
import { seeded } from '#libs/chance';
import { minutesP80 } from './index.js';

describe('working time that is kept in four of five cases', () => {
  it('is the time itself where nothing strays', () => {
    expect(minutesP80(90, 0)).toBe(90);
    expect(minutesP80(1, 0)).toBe(1);
  });

  it('agrees with drawing a log-normal factor of that coefficient of variation', () => {
    for (const cv of [0.1, 0.3, 1]) {
      const random = seeded(7);
      const spread = Math.sqrt(Math.log1p(cv * cv));
      const drawn = Array.from({ length: 40_000 }, () => {
        const normal = Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
        return 1000 * Math.exp(spread * normal);
      });
      const mean = drawn.reduce((sum, one) => sum + one, 0) / drawn.length;
      const deviation = Math.sqrt(
        drawn.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (drawn.length - 1),
      );
      expect(Math.abs(deviation / mean / cv - 1)).toBeLessThan(0.05);
      const kept = drawn.filter((one) => one <= minutesP80(1000, cv * 1_000_000)).length / drawn.length;
      expect(Math.abs(kept - 0.8)).toBeLessThan(0.01);
    }
  });

  it('never falls when the work is longer or strays more, and is never less than the work', () => {
    const minutes = fc.integer({ min: 1, max: 5000 });
    const spread = fc.integer({ min: 0, max: 1_000_000 });
    fc.assert(
      fc.property(minutes, minutes, spread, spread, (one, more, calm, wild) => {
        expect(minutesP80(one, calm)).toBeGreaterThanOrEqual(one);
        expect(minutesP80(one + more, calm)).toBeGreaterThanOrEqual(minutesP80(one, calm));
        expect(minutesP80(one, calm + wild)).toBeGreaterThanOrEqual(minutesP80(one, calm));
      }),
    );
  });

  it('refuses work that takes no time', () => {
    expect(() => minutesP80(0, 0)).toThrow(RangeError);
    expect(() => minutesP80(10, -1)).toThrow(RangeError);
  });
});
