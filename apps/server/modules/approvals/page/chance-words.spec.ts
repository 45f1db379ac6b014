import { chanceWords } from './chance-words.js';

describe('a chance in words', () => {
  it.each([
    [250_000, 'about 1 in 4'],
    [240_000, 'about 1 in 4'],
    [333_333, 'about 1 in 3'],
    [300_000, 'about 3 in 10'],
    [500_000, 'about 1 in 2'],
    [660_000, 'about 2 in 3'],
    [750_000, 'about 3 in 4'],
    [900_000, 'about 9 in 10'],
    [100_000, 'about 1 in 10'],
    [80_000, 'about 1 in 12'],
    [50_000, 'about 1 in 20'],
    [10_000, 'about 1 in 100'],
    [999_999, 'almost always'],
    [1, 'rarely, less than 1 in 150'],
  ])('of %d millionths is said as "%s"', (chance, words) => {
    expect(chanceWords(chance)).toBe(words);
  });

  it('is never off by more than a twentieth of the whole, nor by more than half of itself', () => {
    for (let chance = 7_000; chance <= 950_000; chance += 500) {
      const said = /^about (\d+) in (\d+)$/.exec(chanceWords(chance));
      const share = (Number(said?.[1]) / Number(said?.[2])) * 1_000_000;
      expect(Math.abs(share - chance)).toBeLessThanOrEqual(Math.min(50_000, chance / 2));
    }
  });
});
