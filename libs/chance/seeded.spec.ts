import fc from 'fast-check';
import { seeded } from './seeded.js';

const first = (seed: number, count: number): number[] => {
  const chance = seeded(seed);
  return Array.from({ length: count }, () => chance());
};

describe('numbers by chance', () => {
  it('are the same again for the same seed and others for another', () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer(), (seed, other) => {
        expect(first(seed, 20)).toEqual(first(seed, 20));
        if ((seed | 0) !== (other | 0)) expect(first(other, 20)).not.toEqual(first(seed, 20));
      }),
    );
  });

  it('are from zero up to but not one', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        for (const value of first(seed, 100)) {
          expect(value).toBeGreaterThanOrEqual(0);
          expect(value).toBeLessThan(1);
        }
      }),
    );
  });

  it('fall evenly: of 16 000 each sixteenth gets near 1 000, alone and after each other', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const values = first(seed, 32_000);
        const alone = new Array<number>(16).fill(0);
        const pairs = new Array<number>(16).fill(0);
        for (let at = 0; at < values.length; at += 2) {
          const [one = 0, next = 0] = values.slice(at, at + 2);
          const cell = Math.floor(one * 16);
          const pair = 4 * Math.floor(one * 4) + Math.floor(next * 4);
          alone[cell] = (alone[cell] ?? 0) + 1;
          pairs[pair] = (pairs[pair] ?? 0) + 1;
        }
        // Six standard deviations of about 31.
        for (const count of [...alone, ...pairs]) expect(Math.abs(count - 1000)).toBeLessThan(190);
      }),
      { numRuns: 20 },
    );
  });
});
