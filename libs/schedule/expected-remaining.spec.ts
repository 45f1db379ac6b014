import fc from 'fast-check';
import { bookHundredths, seconds } from '#libs/kernel';
import { expectedRemainingMinutes } from './expected-remaining.js';

const left = (hundredths: number, clockedMinutes = 0): number =>
  expectedRemainingMinutes(bookHundredths(hundredths), seconds(clockedMinutes * 60));

describe('how many minutes of work are still expected', () => {
  it('is the book hours before work begins, rounded up to whole minutes', () => {
    expect(left(150)).toBe(90);
    // 0.01 h is 36 s.
    expect(left(1)).toBe(1);
    expect(left(51)).toBe(31);
    expect(left(12)).toBe(8);
  });

  it('is the book hours less what was clocked, as long as a good part is left', () => {
    expect(left(200, 30)).toBe(90);
    expect(left(200, 90)).toBe(30);
  });

  it('never falls below a quarter of the book hours, nor below a quarter of an hour, once the clock goes on', () => {
    expect(left(200, 100)).toBe(30);
    expect(left(200, 500)).toBe(30);
    expect(left(50, 29)).toBe(15);
    expect(left(800, 480)).toBe(120);
  });

  it('never claims more than the work as a whole, and gives work without hours a quarter of an hour', () => {
    expect(left(10, 60)).toBe(6);
    expect(left(0)).toBe(15);
    expect(left(0, 200)).toBe(15);
  });

  it('never grows while the clock runs, never falls when hours are added, and is at least a minute', () => {
    const hours = fc.integer({ min: 1, max: 5000 });
    const clocked = fc.integer({ min: 0, max: 3000 });
    fc.assert(
      fc.property(hours, clocked, clocked, hours, (book, one, more, added) => {
        expect(left(book, one + more)).toBeLessThanOrEqual(left(book, one));
        expect(left(book + added, one)).toBeGreaterThanOrEqual(left(book, one));
        expect(left(book, one)).toBeGreaterThanOrEqual(1);
      }),
      { numRuns: 2000 },
    );
  });
});
