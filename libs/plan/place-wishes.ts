/** What is asked of the next place of an operation that is taken out. */
export type PlaceWish = 'sooner' | 'elsewhere' | 'back';

/** What is asked of places in one attempt: without it most of what is taken out would go where it was. */
export class PlaceWishes {
  private readonly wishes = new Map<number, PlaceWish>();

  /**
   * Asks that an operation ends sooner than it did, that it is at another time or somebody else's, or that it is where
   * the previous plan has it.
   */
  ask(o: number, wish: PlaceWish): void {
    this.wishes.set(o, wish);
  }

  of(o: number): PlaceWish | undefined {
    return this.wishes.size === 0 ? undefined : this.wishes.get(o);
  }

  clear(): void {
    if (this.wishes.size > 0) this.wishes.clear();
  }
}
