import fc from 'fast-check';
import { niceTicks } from './ticks.js';

describe('the ticks of an axis of money', () => {
  it('are round amounts around what is shown', () => {
    expect(niceTicks(131_000, 182_000, 4)).toEqual([120_000, 140_000, 160_000, 180_000, 200_000]);
    expect(niceTicks(0, 214_380, 4)).toEqual([0, 100_000, 200_000, 300_000]);
  });

  it('hold everything between their ends, evenly, and are few', () => {
    fc.assert(
      fc.property(
        fc.nat(10_000_000),
        fc.nat(10_000_000),
        fc.integer({ min: 2, max: 8 }),
        (low, more, count) => {
          const ticks = niceTicks(low, low + more, count);
          expect(ticks[0]).toBeLessThanOrEqual(low);
          expect(ticks.at(-1)).toBeGreaterThanOrEqual(low + more);
          expect(ticks.length).toBeGreaterThanOrEqual(2);
          expect(ticks.length).toBeLessThanOrEqual(count + 2);
          const step = (ticks[1] ?? 0) - (ticks[0] ?? 0);
          expect(ticks.every((tick, n) => n === 0 || tick - (ticks[n - 1] ?? 0) === step)).toBe(true);
        },
      ),
    );
  });
});
