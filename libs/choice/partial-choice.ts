import type { Network } from './network.js';
import type { Shape } from './shape.js';

export const OPEN = 0;
export const IN = 1;
export const OUT = 2;

const NONE = new Int32Array(0);

/** A choice in the making: some lines in, some out, the rest open; and the way back. */
export class PartialChoice {
  readonly state: Int8Array;
  /** How many lines that are in use each shared cost. */
  readonly uses: Int32Array;
  cost: number;
  benefit = 0;
  private readonly trail: number[] = [];

  constructor(
    readonly shape: Shape,
    readonly network: Network,
  ) {
    this.state = new Int8Array(shape.ids.length);
    this.uses = new Int32Array(network.weight.length);
    this.cost = network.base;
  }

  /** A place to come back to. */
  get mark(): number {
    return this.trail.length;
  }

  /** What an open line would add to the cost, with all that it needs. */
  adds(line: number): number {
    const { own, weight, costsOf } = this.network;
    let sum = own[line] ?? 0;
    for (const cost of costsOf[line] ?? NONE) if (this.uses[cost] === 0) sum += weight[cost] ?? 0;
    return sum;
  }

  /** Puts a line in with all that it needs, and its rivals out. False when that contradicts what is settled. */
  include(line: number): boolean {
    if (this.state[line] === IN) return true;
    if (this.state[line] === OUT) return false;
    this.take(line);
    for (const need of this.shape.needs[line] ?? []) if (!this.include(need)) return false;
    for (const rival of this.shape.rivals[line] ?? []) if (!this.exclude(rival)) return false;
    return true;
  }

  /** Puts a line out with all that need it. False when one of them is in. */
  exclude(line: number): boolean {
    if (this.state[line] === OUT) return true;
    if (this.state[line] === IN) return false;
    this.state[line] = OUT;
    this.trail.push(line);
    for (const other of this.shape.neededBy[line] ?? []) if (!this.exclude(other)) return false;
    return true;
  }

  private take(line: number): void {
    const { own, weight, costsOf } = this.network;
    this.state[line] = IN;
    this.trail.push(line);
    this.cost += own[line] ?? 0;
    this.benefit += this.shape.benefit[line] ?? 0;
    for (const cost of costsOf[line] ?? NONE) {
      if (this.uses[cost] === 0) this.cost += weight[cost] ?? 0;
      this.uses[cost] = (this.uses[cost] ?? 0) + 1;
    }
  }

  /** Back to a mark. */
  undoTo(mark: number): void {
    const { own, weight, costsOf } = this.network;
    while (this.trail.length > mark) {
      const line = this.trail.pop() ?? 0;
      if (this.state[line] === IN) {
        this.cost -= own[line] ?? 0;
        this.benefit -= this.shape.benefit[line] ?? 0;
        for (const cost of costsOf[line] ?? NONE) {
          const left = (this.uses[cost] ?? 0) - 1;
          this.uses[cost] = left;
          if (left === 0) this.cost -= weight[cost] ?? 0;
        }
      }
      this.state[line] = OPEN;
    }
  }

  /** The lines that are in, rising. */
  chosen(): number[] {
    const lines: number[] = [];
    for (let line = 0; line < this.state.length; line++) if (this.state[line] === IN) lines.push(line);
    return lines;
  }
}
