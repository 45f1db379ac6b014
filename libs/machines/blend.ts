import type { Chance } from '#libs/chance';
import type { Layout } from './layout.js';
import type { Kept } from './sequences.js';

/**
 * Mixes two plans. Each operation stands where the mean of its two places in the plans' orders puts it, which keeps
 * what both agree on, and is done on the machine of one of them. Such an order always respects the jobs, so every mix
 * can be carried out.
 */
export class Blend {
  private readonly placeA: Int32Array;
  private readonly placeB: Int32Array;
  private readonly key: Float64Array;

  constructor(private readonly layout: Layout) {
    this.placeA = new Int32Array(layout.size);
    this.placeB = new Int32Array(layout.size);
    this.key = new Float64Array(layout.size);
  }

  /** The makespan of the result is not worked out. */
  mix(a: Kept, b: Kept, shareOfB: number, chance: Chance, into: Kept): void {
    const { placeA, placeB, key } = this;
    const { size } = this.layout;
    for (let at = 0; at < size; at++) {
      placeA[a.order[at] as number] = at;
      placeB[b.order[at] as number] = at;
    }
    for (let o = 0; o < size; o++) {
      key[o] = (1 - shareOfB) * (placeA[o] as number) + shareOfB * (placeB[o] as number);
      const [wayA, wayB] = [a.way[o] as number, b.way[o] as number];
      into.way[o] = wayA === wayB || chance.part() >= shareOfB ? wayA : wayB;
      into.order[o] = o;
    }
    // Within a job the keys rise, as both orders do, so sorting breaks no job; equal keys keep the jobs' own order.
    into.order.sort((one, other) => (key[one] as number) - (key[other] as number) || one - other);
  }
}
