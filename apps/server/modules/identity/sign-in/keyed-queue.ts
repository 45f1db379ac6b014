/**
 * One at a time for each key, in order. Attempts on one person's password take turns: of a hundred guesses sent at
 * once, the sixth already finds the lock that the fifth has set.
 */
export class KeyedQueue {
  private readonly tails = new Map<string, Promise<unknown>>();

  async run<T>(key: string, act: () => Promise<T>): Promise<T> {
    const before = this.tails.get(key) ?? Promise.resolve();
    const mine = before.then(() => act());
    const tail = mine.catch(() => undefined);
    this.tails.set(key, tail);
    try {
      return await mine;
    } finally {
      if (this.tails.get(key) === tail) this.tails.delete(key);
    }
  }
}
