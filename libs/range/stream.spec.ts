import { hashText } from './hash-text.js';
import { fillUniform, streamOf } from './stream.js';

const words = (uniform: Float64Array): number[] => [...uniform].map((one) => Math.floor(one * 4_294_967_296));

describe('the numbers that everything is drawn from', () => {
  it('are those of xoshiro128** 1.1', () => {
    // From the authors' C program with the state 1, 2, 3, 4, as published with the rand_xoshiro crate.
    expect(words(fillUniform([1, 2, 3, 4], new Float64Array(10)))).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('hash as FNV-1a does', () => {
    // Test vectors of the FNV reference source (L. C. Noll, test_fnv.c), 32 bits, without the final zero.
    expect(['', 'a', 'foobar'].map(hashText)).toEqual([0x811c9dc5, 0xe40c292c, 0xbf9cf968]);
    expect(hashText('ä')).not.toBe(hashText('a'));
    expect(hashText('\u0141')).not.toBe(hashText('A'));
  });

  it('are uniform, stay inside, and of each name independent of all others', () => {
    const n = 20_000;
    const drawn = ['a', 'b', 'line/1/labour', 'line/2/labour', 'line/1/items'].map((name) =>
      fillUniform(streamOf(7, name), new Float64Array(n)),
    );
    for (const one of drawn) {
      expect(Math.min(...one)).toBeGreaterThan(0);
      expect(Math.max(...one)).toBeLessThan(1);
      // Chi-squared over 20 boxes; 43.8 is exceeded once in a thousand (19 degrees of freedom).
      const boxes = new Array<number>(20).fill(0);
      for (const u of one) boxes[Math.floor(u * 20)] = (boxes[Math.floor(u * 20)] ?? 0) + 1;
      expect(boxes.reduce((sum, box) => sum + (box - n / 20) ** 2 / (n / 20), 0)).toBeLessThan(43.8);
    }
    for (const [at, one] of drawn.entries())
      for (const other of drawn.slice(at + 1)) {
        const correlation =
          (one.reduce((sum, u, draw) => sum + (u - 0.5) * ((other[draw] ?? 0) - 0.5), 0) / n) * 12;
        // Four standard deviations of the correlation of independent numbers.
        expect(Math.abs(correlation)).toBeLessThan(4 / Math.sqrt(n));
      }
  });

  it('change with the seed and with nothing else', () => {
    expect(streamOf(1, 'x')).toEqual(streamOf(1, 'x'));
    expect(streamOf(1, 'x')).not.toEqual(streamOf(2, 'x'));
    expect(streamOf(1, 'x')).not.toEqual(streamOf(1, 'y'));
  });
});
