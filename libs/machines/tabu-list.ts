import type { Sequences } from './sequences.js';

/**
 * What must be left alone for a while: which operation must not get ahead of which on a machine again, and which must
 * not go back to a machine. Times are the walk's own count of moves and only ever grow.
 */
export class TabuList {
  /** By pair: until when the first must not be put before the second. */
  private readonly ahead: Int32Array;
  /** By operation and machine. */
  private readonly back: Int32Array;
  private readonly width: number;

  constructor(private readonly plan: Sequences) {
    const { size, machines, isFlexible } = plan.layout;
    this.width = size + 1;
    this.ahead = new Int32Array(this.width * this.width);
    this.back = new Int32Array(isFlexible ? size * machines : 0);
  }

  forbidAhead(first: number, second: number, until: number): void {
    this.ahead[first * this.width + second] = until;
  }

  forbidBack(operation: number, machine: number, until: number): void {
    this.back[operation * this.plan.layout.machines + machine] = until;
  }

  isBackForbidden(operation: number, machine: number, now: number): boolean {
    return (this.back[operation * this.plan.layout.machines + machine] as number) > now;
  }

  /** Whether any of those that `u` would let pass, up to `v`, must not get ahead of it. */
  isLaterForbidden(u: number, v: number, now: number): boolean {
    const { ahead, width, plan } = this;
    for (let o = plan.after[u] as number; ; o = plan.after[o] as number) {
      if ((ahead[o * width + u] as number) > now) return true;
      if (o === v) return false;
    }
  }

  /** Whether `v` must not get ahead of any of those back to, without, `a`. */
  isSoonerForbidden(v: number, a: number, now: number): boolean {
    const { ahead, width, plan } = this;
    for (let o = plan.before[v] as number; o !== a; o = plan.before[o] as number)
      if ((ahead[v * width + o] as number) > now) return true;
    return false;
  }
}
