import { jest } from '@jest/globals';
import { coalesce } from './coalesce.js';

describe('reading the board again after events', () => {
  beforeEach(() => void jest.useFakeTimers());
  afterEach(() => void jest.useRealTimers());

  it('reads once for a burst, and once more for what came while it was reading', async () => {
    let reads = 0;
    let finish = (): void => undefined;
    const again = coalesce(() => {
      reads += 1;
      return new Promise<void>((done) => {
        finish = done;
      });
    }, 100);
    for (let event = 0; event < 400; event += 1) again.call();
    await jest.advanceTimersByTimeAsync(99);
    expect(reads).toBe(0);
    await jest.advanceTimersByTimeAsync(1);
    expect(reads).toBe(1);
    for (let event = 0; event < 50; event += 1) again.call();
    await jest.advanceTimersByTimeAsync(1000);
    expect(reads).toBe(1);
    finish();
    await jest.advanceTimersByTimeAsync(100);
    expect(reads).toBe(2);
    finish();
    await jest.advanceTimersByTimeAsync(1000);
    expect(reads).toBe(2);
  });

  it('stays quiet once stopped', async () => {
    let reads = 0;
    const again = coalesce(() => Promise.resolve((reads += 1)), 100);
    again.call();
    again.stop();
    again.call();
    await jest.advanceTimersByTimeAsync(1000);
    expect(reads).toBe(0);
  });
});
