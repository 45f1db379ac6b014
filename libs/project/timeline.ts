import type { Packing } from './packing.js';

/** What is free of all renewable resources at each time unit. */
export class Timeline {
  private readonly free: Int32Array;
  private readonly words: number;
  private readonly guards: Int32Array;
  private readonly full: Int32Array;
  private used = 0;

  constructor(packing: Packing, capacities: readonly number[], horizon: number) {
    this.words = packing.words;
    this.guards = packing.guards;
    this.full = packing.pack(capacities);
    this.free = new Int32Array(horizon * this.words);
    this.used = horizon;
    this.clear();
  }

  clear(): void {
    const { words, full, free } = this;
    if (words === 1) free.fill(full[0] ?? 0, 0, this.used);
    else for (let cell = 0; cell < this.used * words; cell++) free[cell] = full[cell % words] ?? 0;
    this.used = 0;
  }

  /** The first time from `from` on at which `wants` is free for `duration` units; it is then held. */
  place(from: number, duration: number, wants: Int32Array, at: number): number {
    if (duration === 0) return from;
    const start =
      this.words === 1 ? this.fitOne(from, duration, wants[at] ?? 0) : this.fit(from, duration, wants, at);
    const { words, free } = this;
    const end = start + duration;
    for (let word = 0; word < words; word++) {
      const want = wants[at + word] ?? 0;
      for (let time = start; time < end; time++)
        free[time * words + word] = (free[time * words + word] ?? 0) - want;
    }
    if (end > this.used) this.used = end;
    return start;
  }

  /** The same without holding it. */
  look(from: number, duration: number, wants: Int32Array, at: number): number {
    if (duration === 0) return from;
    return this.words === 1
      ? this.fitOne(from, duration, wants[at] ?? 0)
      : this.fit(from, duration, wants, at);
  }

  private fitOne(from: number, duration: number, want: number): number {
    const { free } = this;
    const guard = this.guards[0] ?? 0;
    let start = from;
    // From the end: what is in the way there rules out most starts at once.
    for (let time = start + duration - 1; time >= start; time--) {
      if (((((free[time] ?? 0) | guard) - want) & guard) !== guard) {
        start = time + 1;
        time = start + duration;
      }
    }
    return start;
  }

  private fit(from: number, duration: number, wants: Int32Array, at: number): number {
    const { words, free, guards } = this;
    let start = from;
    for (let time = start + duration - 1; time >= start; time--) {
      for (let word = 0; word < words; word++) {
        const guard = guards[word] ?? 0;
        if (((((free[time * words + word] ?? 0) | guard) - (wants[at + word] ?? 0)) & guard) !== guard) {
          start = time + 1;
          time = start + duration;
          break;
        }
      }
    }
    return start;
  }
}
