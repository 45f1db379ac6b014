import type { Chance } from '#libs/chance';

/** The shortest of the moves offered, one of the equally short by chance. */
export class BestMove {
  operation = -1;
  way = -1;
  /** The operation on the way's machine that it would stand right after. */
  after = -1;
  length = Infinity;
  private ties = 0;

  constructor(private readonly chance: Chance) {}

  clear(): void {
    this.operation = -1;
    this.length = Infinity;
    this.ties = 0;
  }

  offer(operation: number, way: number, after: number, length: number): void {
    if (length > this.length) return;
    if (length < this.length) this.ties = 0;
    this.length = length;
    if (this.chance.below(++this.ties) !== 0) return;
    this.operation = operation;
    this.way = way;
    this.after = after;
  }
}
