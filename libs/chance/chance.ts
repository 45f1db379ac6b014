/** Whole numbers by chance, always the same for a seed (xorshift of G. Marsaglia 2003, from memory). */
export class Chance {
  private state: number;

  constructor(seed: number) {
    // Neighbouring seeds start far apart, and the state must not be zero.
    this.state = Math.imul((seed | 0) ^ 0x9e3779b9, 0x85ebca6b) | 1;
    for (let turn = 0; turn < 8; turn++) this.below(2);
  }

  /** From 0 up to one less than `limit`. */
  below(limit: number): number {
    let mixed = this.state;
    mixed ^= mixed << 13;
    mixed ^= mixed >>> 17;
    mixed ^= mixed << 5;
    this.state = mixed;
    return Math.floor(((mixed >>> 0) / 4_294_967_296) * limit);
  }

  /** From 0 up to but not including 1. */
  part(): number {
    return this.below(4_194_304) / 4_194_304;
  }
}
