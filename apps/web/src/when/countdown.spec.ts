import fc from 'fast-check';
import { leftWords, saidWords } from './countdown.js';

const at = (minutes: number, seconds = 0): number => minutes * 60_000 + seconds * 1000;

describe('the time that a place is still held', () => {
  it('is told in words, never more than there is', () => {
    expect(leftWords(at(15), at(0))).toBe('15 minutes left.');
    expect(leftWords(at(15), at(3))).toBe('Twelve minutes left.');
    expect(leftWords(at(15), at(3, 1))).toBe('Eleven minutes left.');
    expect(leftWords(at(15), at(13, 1))).toBe('One minute left.');
    expect(leftWords(at(15), at(14, 1))).toBe('Less than a minute left.');
    expect(leftWords(at(15), at(15))).toBe('The time is over.');
    expect(leftWords(at(15), at(20))).toBe('The time is over.');
  });

  it('is read out at five, two and one, and when it is over, each once', () => {
    const said: string[] = [];
    for (let second = 1; second <= 16 * 60; second += 1) {
      const words = saidWords(at(15), at(0, second - 1), at(0, second));
      if (words !== '') said.push(words);
    }
    expect(said).toEqual([
      ...['Five minutes left.', 'Two minutes left.', 'One minute left.'],
      'The time is over: the place is free for everybody again.',
    ]);
  });

  it('is read out however late a sleeping screen looks', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1200 }), fc.integer({ min: 0, max: 1200 }), (one, other) => {
        const [before, now] = [at(0, Math.min(one, other)), at(0, Math.max(one, other))];
        const words = saidWords(at(15), before, now);
        const passes = [10, 13, 14, 15].some((minute) => before < at(minute) && at(minute) <= now);
        expect(words !== '').toBe(passes && before < at(15));
      }),
    );
  });
});
